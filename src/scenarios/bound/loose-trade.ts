import { type Block, mostBesideKw, NOTHING_KWH, readStep } from './block.ts';
import { bestLPerKwh } from './fuel-hull.ts';
import { netAloneKw, type StepGiven, storedKw } from './step-modes.ts';
import { type Trade, tradeAmong } from './trade.ts';

/**
 * A block in which load was missed, shed or shifted for a part of the time: only sums are known. Whatever was on,
 * the battery got at most what it would have got from the inverters at the mean load (their losses and the
 * charger's limit bend down), and each kWh of the generator added at most what an inverter draws for it at the
 * highest load.
 */
export function looseTrade(block: Block): Trade {
  const { run, limits, from, to, hours, sums } = block;
  const mean = meanGiven(block);
  const engine = sums.secondRunH > NOTHING_KWH ? limits.both : limits.first;
  const aloneKw = netAloneKw(limits, mean);
  const points = [{ netKw: Math.min(aloneKw, limits.chargeKw), generatedKw: 0 }];
  let highestKw = 0;
  for (let i = from; i < to; i++)
    for (let k = 0; k < run.plant.phases; k++)
      highestKw = Math.max(highestKw, run.inputs.loadKw[k][i] + mostBesideKw(run.plant, k));
  const perGeneratedKw = 1 + limits.lossLinear + 2 * limits.lossQuadraticPerKw * highestKw;
  if (engine && aloneKw < limits.chargeKw) {
    const ratedKw = engine.hull[engine.hull.length - 1].kw;
    const outputs = [ratedKw, -aloneKw / perGeneratedKw, (limits.chargeKw - aloneKw) / perGeneratedKw];
    for (const generatedKw of outputs)
      if (generatedKw > 0 && generatedKw <= ratedKw)
        points.push({
          generatedKw,
          netKw: Math.min(aloneKw + perGeneratedKw * generatedKw, limits.chargeKw),
        });
  }
  const lPerKwh = engine ? bestLPerKwh(engine.hull) : 0;
  return tradeAmong(
    points.map(({ netKw, generatedKw }) => ({
      fuelL: generatedKw * lPerKwh * hours,
      storedKwh: storedKw(limits, netKw) * hours,
      generatedKwh: generatedKw * hours,
    })),
  );
}

/** Means of a block, with what was served in place of what was wanted; the rest of the sums off the battery. */
function meanGiven({ run, from, to, hours, sums }: Block): StepGiven {
  const { phases } = run.plant;
  const share = 1 / (to - from);
  const servedKwh = Math.max(0, sums.servedKwh + sums.climateKwh + sums.ownKwh);
  const mean = readStep(run, from, false);
  const zero = () => new Array<number>(phases).fill(0);
  Object.assign(mean, { wantKw: zero(), inService: zero(), acArrayKw: zero(), dcArrayKw: 0 });
  const sheddableKw = zero();
  for (let i = from; i < to; i++) {
    const step = readStep(run, i, false);
    mean.dcArrayKw += step.dcArrayKw * share;
    for (let k = 0; k < phases; k++) {
      mean.wantKw[k] += step.wantKw[k] * share;
      mean.inService[k] += step.inService[k] * share;
      mean.acArrayKw[k] += step.acArrayKw[k] * share;
      sheddableKw[k] += (run.inputs.sheddableKw?.[k][i] ?? 0) * share;
    }
  }
  let restKw = servedKwh / hours;
  for (let k = 0; k < phases; k++) {
    const shedKw = Math.min(sums.shedKwh / hours, sheddableKw[k]);
    const knownKw = mean.wantKw[k] - sums.unservedByPhaseKwh[k] / hours - shedKw;
    mean.wantKw[k] = phases === 1 ? servedKwh / hours : Math.max(0, knownKw);
    restKw -= mean.wantKw[k];
  }
  const hasAcArray = mean.acArrayKw.some((kw) => kw > 0);
  mean.standingKw = (sums.idleKwh + sums.standbyKwh) / hours;
  // on whichever phase it was, an inverter draws at least this for it; an array's surplus may give it for nothing
  if (!hasAcArray) mean.standingKw += Math.max(0, restKw);
  return mean;
}
