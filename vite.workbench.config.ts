import { defineConfig, type Plugin } from 'vite';
import { inlineSlots } from './vite.slots.ts';

/** Puts script and style into the page, so that one file is all there is: `dist/workbench.html`. */
function onePage(): Plugin {
  return {
    name: 'one-page',
    enforce: 'post',
    generateBundle(_, bundle) {
      const page = bundle['index.html'];
      if (page?.type !== 'asset') return;
      let html = String(page.source);
      for (const [name, file] of Object.entries(bundle)) {
        if (file === page) continue;
        if (file.type === 'chunk')
          // an end tag inside a string of the script would end it
          html = put(
            html,
            name,
            `<script type="module">${file.code.replaceAll('</script', '<\\/script')}</script>`,
          );
        else if (name.endsWith('.css')) html = put(html, name, `<style>${file.source}</style>`);
        else throw new Error(`${name} cannot be put into the page`);
        delete bundle[name];
      }
      page.fileName = 'workbench.html';
      page.source = html;
    },
  };
}

/** In place of the tag that names the file; a script goes to the end, when the page is there. */
function put(html: string, name: string, element: string): string {
  const tag = new RegExp(`<(script|link)[^>]*"[^"]*${name.replaceAll('.', '\\.')}"[^>]*>(</script>)?`);
  if (!tag.test(html)) throw new Error(`no place for ${name} in the page`);
  const without = html.replace(tag, '');
  const before = element.startsWith('<script') ? '</body>' : '</head>';
  return without.replace(before, () => `${element}\n${before}`);
}

/** The workbench: `npm run dev` serves it, `npm run build` makes one HTML file that opens from disk. */
export default defineConfig({
  plugins: [inlineSlots(), onePage()],
  worker: {
    format: 'iife',
    plugins: () => [inlineSlots()],
    rolldownOptions: { optimization: { inlineConst: true } },
  },
  optimizeDeps: { include: ['comlink', 'zod', 'yaml', 'temporal-polyfill', 'fast-xml-parser', 'seedrandom'] },
  build: {
    target: 'es2022',
    outDir: 'dist',
    emptyOutDir: false,
    cssCodeSplit: false,
    assetsInlineLimit: 0,
    modulePreload: false,
    rolldownOptions: { optimization: { inlineConst: true } },
  },
});
