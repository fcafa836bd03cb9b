/** What may have gone into and out of the battery within one step, by its neighbours of other signs [kW]; else 0. */
export function mixed(kw: Float64Array): Float64Array {
  return kw.map((now, i) => {
    const [before, after] = [kw[i - 1], kw[i + 1]];
    if (!(before * now < 0) && !(after * now < 0)) return 0;
    return Math.max(0, (Math.abs(before) + Math.abs(after)) / 2 - Math.abs(now)) || 0;
  });
}
