import type { Setting, SettingGroup } from './setting.ts';

/**
 * Settings beside those that were in force: each that differs knows what it was; one that is no longer there stays,
 * to be taken out.
 */
export function withOld(groups: readonly SettingGroup[], before: readonly SettingGroup[]): SettingGroup[] {
  const titles = [...new Set([...groups, ...before].map(({ title }) => title))];
  return titles.map((title) => {
    const [now, old] = [groups, before].map((each) => each.find((group) => group.title === title));
    const settings = now?.settings ?? [];
    const former = old?.settings ?? [];
    const gone = former.filter(({ name }) => !settings.some((setting) => setting.name === name));
    return {
      title,
      note: now?.note ?? old?.note ?? '',
      settings: [
        ...settings.map((setting): Setting => {
          const was = former.find(({ name }) => name === setting.name)?.value ?? NOT_THERE;
          return was === setting.value ? setting : { ...setting, was };
        }),
        ...gone.map((setting): Setting => ({ ...setting, was: setting.value, value: 'take out' })),
      ],
    };
  });
}

const NOT_THERE = 'not set';

export function changedCount(groups: readonly SettingGroup[]): number {
  return groups.reduce(
    (sum, { settings }) => sum + settings.filter(({ was }) => was !== undefined).length,
    0,
  );
}
