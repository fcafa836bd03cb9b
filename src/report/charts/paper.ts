/**
 * Paper to draw on where there is no document, as in a browser's worker: only as much of one as Plot asks for, and
 * a hundredth of the size of a document made for servers, which the workbench would have to carry. The drawings are
 * the same (`tests/report/paper.test.ts`).
 */
export function makePaper(): Document {
  const paper = {
    createElementNS: (namespace: string, name: string) => new PaperElement(paper, namespace, name),
    createTextNode: (text: string) => new PaperText(paper, text),
    documentElement: null as PaperElement | null,
  };
  paper.documentElement = new PaperElement(paper, 'http://www.w3.org/1999/xhtml', 'html');
  return paper as unknown as Document;
}

/** Styles by their names in scripts; what sets and removes them by their own names is not among them. */
function makeStyle(): Record<string, string> {
  const style: Record<string, string> = {};
  const method = (value: (name: string, to: unknown) => void) => ({ value, enumerable: false });
  return Object.defineProperties(style, {
    setProperty: method((name, to) => {
      style[name] = String(to);
    }),
    removeProperty: method((name) => {
      delete style[name];
    }),
  });
}

class PaperText {
  parentNode: PaperElement | null = null;

  constructor(
    readonly ownerDocument: unknown,
    readonly text: string,
  ) {}

  get outerHTML(): string {
    return this.text.replace(/[&<>\u00a0]/g, (sign) => ESCAPED[sign]);
  }
}

const ESCAPED: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '\u00a0': '&#160;' };

type PaperNode = PaperElement | PaperText;

class PaperElement {
  parentNode: PaperElement | null = null;
  readonly childNodes: PaperNode[] = [];
  readonly style = makeStyle();
  private readonly attributes = new Map<string, string>();

  constructor(
    readonly ownerDocument: unknown,
    readonly namespaceURI: string,
    readonly tagName: string,
  ) {}

  setAttribute(name: string, value: unknown): void {
    this.attributes.set(name, String(value));
  }

  setAttributeNS(_namespace: string, name: string, value: unknown): void {
    this.setAttribute(name, value);
  }

  getAttribute(name: string): string | null {
    return this.attributes.get(name) ?? null;
  }

  hasAttribute(name: string): boolean {
    return this.attributes.has(name);
  }

  removeAttribute(name: string): void {
    this.attributes.delete(name);
  }

  appendChild<T extends PaperNode>(node: T): T {
    return this.insertBefore(node, null);
  }

  append(...nodes: PaperNode[]): void {
    for (const node of nodes) this.appendChild(node);
  }

  insertBefore<T extends PaperNode>(node: T, next: PaperNode | null): T {
    node.parentNode?.removeChild(node);
    const at = next === null ? this.childNodes.length : this.childNodes.indexOf(next);
    this.childNodes.splice(at, 0, node);
    node.parentNode = this;
    return node;
  }

  removeChild<T extends PaperNode>(node: T): T {
    const at = this.childNodes.indexOf(node);
    if (at >= 0) this.childNodes.splice(at, 1);
    node.parentNode = null;
    return node;
  }

  remove(): void {
    this.parentNode?.removeChild(this);
  }

  get firstChild(): PaperNode | null {
    return this.childNodes[0] ?? null;
  }

  set textContent(text: string) {
    for (const node of [...this.childNodes]) this.removeChild(node);
    if (text !== '') this.appendChild(new PaperText(this.ownerDocument, String(text)));
  }

  /** @param wanted names of elements, or attributes in brackets, with commas between them */
  querySelectorAll(wanted: string): PaperElement[] {
    const kinds = wanted.split(',').map((kind) => kind.trim());
    const isWanted = (element: PaperElement) =>
      kinds.some((kind) =>
        kind.startsWith('[') ? element.hasAttribute(kind.slice(1, -1)) : element.tagName === kind,
      );
    const below = this.childNodes.filter((node) => node instanceof PaperElement);
    return below.flatMap((element) => [
      ...(isWanted(element) ? [element] : []),
      ...element.querySelectorAll(wanted),
    ]);
  }

  get outerHTML(): string {
    const style = Object.entries(this.style).map(([name, value]) => `${kebab(name)}:${value}`);
    const all = [...this.attributes, ...(style.length === 0 ? [] : [['style', style.join(';')]])];
    const start = `${this.tagName}${all.map(([name, value]) => ` ${name}="${attributeText(value)}"`).join('')}`;
    const inner = this.childNodes.map((node) => node.outerHTML).join('');
    return inner === '' ? `<${start} />` : `<${start}>${inner}</${this.tagName}>`;
  }
}

/** fontSize -> font-size */
function kebab(name: string): string {
  return name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
}

function attributeText(value: string): string {
  return value.replace(/["&<>\u00a0]/g, (sign) => (sign === '"' ? '&quot;' : ESCAPED[sign]));
}
