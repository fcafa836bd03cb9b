import type { Inputs } from '../../src/sim/inputs.ts';

/**
 * An invented year of the south: cloudy spells drawn day by day, milking at six and at four, cold nights.
 * @param draw uniform draws in [0, 1)
 */
export function inventedInputs(stepMin: number, days: number, draw: () => number): Inputs {
  const perDay = (24 * 60) / stepMin;
  const count = days * perDay;
  const column = () => new Float64Array(count);
  const loadKw = [column(), column(), column()];
  const [dcArrayKw, acArrayKw, airC, cabinetSunWPerM2] = [column(), column(), column(), column()];
  const night = new Uint8Array(count);
  let clearness = 0.7;
  for (let day = 0; day < days; day++) {
    const summer = Math.cos((2 * Math.PI * (day - 5)) / 365);
    clearness = Math.min(1, Math.max(0.12, 0.55 * clearness + 0.45 * (0.25 + draw()) + 0.04 * summer));
    const dayLengthH = 12 + 2.4 * summer;
    const milking = draw() < 0.25 ? 1.5 : 1.1 + 0.25 * draw();
    for (let i = 0; i < perDay; i++) {
      const step = day * perDay + i;
      const hour = (i * stepMin) / 60;
      const height = Math.sin((Math.PI * (hour - 12 + dayLengthH / 2)) / dayLengthH);
      const up = hour > 12 - dayLengthH / 2 && hour < 12 + dayLengthH / 2;
      const sun = up ? height ** 1.3 * (0.75 + 0.25 * summer) * clearness * (0.9 + 0.2 * draw()) : 0;
      dcArrayKw[step] = 16 * sun;
      acArrayKw[step] = 7 * sun;
      cabinetSunWPerM2[step] = 900 * sun;
      airC[step] = 6 + 8 * summer + 6 * Math.sin((2 * Math.PI * (hour - 9)) / 24) - 2 * (1 - clearness);
      night[step] = Number(hour < 6 || hour >= 22);
      const milkKw = (hour >= 6 && hour < 8) || (hour >= 16 && hour < 17.5) ? 2.7 * milking : 0;
      const motorKw = draw() < 0.03 ? (draw() < 0.01 ? 5 : 1.3) : 0;
      for (let phase = 0; phase < 3; phase++)
        loadKw[phase][step] =
          0.22 + 0.12 * draw() + milkKw * (1.15 - 0.15 * phase) + (phase === 0 ? motorKw : 0);
    }
  }
  return { stepMin, count, loadKw, dcArrayKw, acArrayKw, airC, cabinetSunWPerM2, night };
}
