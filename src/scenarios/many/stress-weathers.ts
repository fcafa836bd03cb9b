import { siteWithWeather } from '../horizon-weather.ts';
import type { InputMaker, SiteInputs } from '../inputs-from-site.ts';
import type { Site } from '../site-schema.ts';
import type { MonthlyClimate } from '../synthetic-weather.ts';
import type { StressTerms } from './stress-result.ts';
import { climateOf, MadeYears } from './stress-weather.ts';

/** The weather years that runs draw from, as series of a site; each is made when it is first asked for. */
export class StressWeathers {
  readonly terms: StressTerms['weather'];
  private readonly climate: MonthlyClimate | null;
  private made: MadeYears | null = null;
  private readonly makers = new Map<number, InputMaker>();
  private kept = new Map<number, SiteInputs>();
  private keptFor = '';

  /** @param site as filed, whose weather its alternatives share */
  constructor(
    private readonly site: Site,
    private readonly maker: InputMaker,
  ) {
    const { stress, horizon } = site;
    const filed = maker.weather(site);
    this.climate = filed?.weather ? climateOf(filed.weather, site.site, filed.axis) : null;
    const list = horizon.weatherYears;
    const kind = stress.weather ?? (list === 'repeat' ? 'made' : 'listed');
    if (kind === 'listed' && list !== 'repeat') this.terms = { kind, count: list.length };
    else if (kind === 'made' && this.climate !== null) this.terms = { kind, count: stress.weatherYears };
    else this.terms = { kind: 'repeat', count: 1 };
  }

  /**
   * The series of a site in one of the years. What alternatives share is made once, and the series of the last one
   * are kept whole.
   * @param index from 0
   * Errors: throws on a site whose files have errors: they are checked before.
   */
  at(site: Site, index: number): { name: string; made: SiteInputs } {
    const { weatherYears } = this.site.horizon;
    const key = JSON.stringify({ ...site, money: null, stress: null, uncertain: null, alternatives: null });
    if (this.keptFor !== key) [this.keptFor, this.kept] = [key, new Map()];
    const name =
      this.terms.kind === 'listed' && weatherYears !== 'repeat' ? weatherYears[index] : `${index + 1}`;
    const made = this.kept.get(index) ?? this.make(site, index, name);
    this.kept.set(index, made);
    return { name, made };
  }

  private make(site: Site, index: number, name: string): SiteInputs {
    if (this.terms.kind === 'repeat') return sound(this.maker.make(site));
    const maker = this.makers.get(index) ?? this.maker.forked();
    this.makers.set(index, maker);
    const isListed = this.terms.kind === 'listed';
    const made = maker.make(isListed ? siteWithWeather(site, name) : this.madeSite(site, index, maker));
    maker.tidy();
    return sound(made);
  }

  /** The site with a year of weather that is made, of which the maker is told. */
  private madeSite(site: Site, index: number, maker: InputMaker): Site {
    const filed = this.maker.weather(this.site);
    const { climate } = this;
    if (!filed?.weather || !climate) throw new Error('no weather to make years from');
    const { weatherYears, seed } = this.site.stress;
    this.made ??= new MadeYears(climate, weatherYears, seed, filed.axis, this.site.site.longitudeDeg);
    const { globalKwh, lowC, highC } = climate;
    const means = { globalKwh: [...globalKwh], lowC: [...lowC], highC: [...highC] };
    const other: Site = {
      ...site,
      weather: { format: 'monthly', ...means, seed: `${seed}, year ${index + 1}` },
    };
    maker.giveWeather(other, this.made.year(index, filed.weather));
    return other;
  }
}

function sound(made: SiteInputs | null): SiteInputs {
  if (made === null) throw new Error('no series for a year of weather');
  return made;
}
