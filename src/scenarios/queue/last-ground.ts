/** Makes something from data, and gives the last one again as long as the data are the same. */
export function lastGround<Data, Ground>(make: (data: Data) => Ground): (key: string, data: Data) => Ground {
  let last: { key: string; ground: Ground } | null = null;
  return (key, data) => {
    if (last?.key !== key) last = { key, ground: make(data) };
    return last.ground;
  };
}
