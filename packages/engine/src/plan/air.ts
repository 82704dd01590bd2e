import {
  type AirTried,
  chooseAir,
  climateForYear,
  type DesignYears,
  designYearsOf,
  type EnergyPaid,
  type Remedies,
  type RemedyTask,
  remediesOf,
  weatherFor,
} from '../air/index.ts'
import { type Assessment, rulesOf, type Shop } from '../assess/index.ts'
import { answerHaul, HAUL_READS } from '../haul/index.ts'
import type { AirDesign, Design, Job } from '../job/index.ts'
import type { Prices } from '../parts/index.ts'
import type { BoxReach } from '../power/reach/result.ts'
import type { RuleSet } from '../rules/index.ts'
import { answerSkin, SKIN_READS } from '../skin/index.ts'
import { bodyOf, skinOf } from './build.ts'

export interface AirChosen {
  readonly box: string
  readonly air: AirDesign
  readonly tried: AirTried
  /** Hottest air at the breakers under load with these measures, up to a whole degree; null: no hour carries load. */
  readonly hottestC: number | null
}

/**
 * What keeps each box of a laid-out design dry and cool, at least cost. None where the year cannot be made of what is told, and none for a
 * box that stands: it has what it has.
 */
export function airChosen(of: {
  readonly job: Job
  readonly design: Design
  readonly rules: RuleSet
  readonly prices: Prices
  readonly reach: readonly BoxReach[]
  /** What is added to a box that stands, instead. */
  readonly choose?: typeof chooseAir
}): readonly AirChosen[] {
  const { job, design, rules, prices, reach, choose = chooseAir } = of
  const found = weatherFor(job, null)
  if ('lacks' in found) return []
  const bodies = Object.fromEntries(design.builds.map((b) => [b.box, bodyOf(job, b.box)]))
  const reads = Object.fromEntries(HAUL_READS.map((name) => [name, job[name]])) as Pick<Job, (typeof HAUL_READS)[number]>
  const weighed = new Map(answerHaul({ job: reads, design, bodies, rules }).result.boxes.map((b) => [b.box, b.items]))
  const skinReads = Object.fromEntries(SKIN_READS.map((name) => [name, job[name]])) as Pick<Job, (typeof SKIN_READS)[number]>
  const failsCut = (builds: Design['builds']): number =>
    answerSkin({ job: skinReads, design: { ...design, builds }, rules, bodies }).findings.filter((f) => f.verdict === 'fails')
      .length
  const asLaid = failsCut(design.builds)
  return design.builds.flatMap((build): readonly AirChosen[] => {
    const body = bodies[build.box]!
    const designs = design.boxes.filter((b) => b.box === build.box)
    const chosen = choose({
      ...{ job, design, build, body, rules, reach, prices, weighed: weighed.get(build.box) ?? null, weather: found.weather },
      energy: energyOf(job, design, build.box, prices),
      skinOf: (air) => skinOf({ job, body, designs, rules, air }),
      canCut: (air) => {
        const skin = skinOf({ job, body, designs, rules, air })
        const cut = skin.openings.filter((o) => o.use === 'vent' || o.use === 'fan').length
        return cut === air.vents.length && failsCut(design.builds.map((b) => (b === build ? { ...b, skin } : b))) <= asLaid
      },
    })
    if (chosen === null) return []
    const { air, hottestC, ...tried } = chosen
    return [{ box: build.box, air, tried, hottestC }]
  })
}

const MONTHS_A_YEAR = 12

/** Price of a kilowatt-hour over the stay, where it is told, is in the currency of the price table and counts in what the job asks for. */
function energyOf(job: Job, design: Design, box: string, prices: Prices): EnergyPaid {
  if (job.needs.goal === 'least first cost' || prices.currency !== job.money.currency) return null
  const offer = job.offers.find((o) => o.id === design.boxes.find((b) => b.box === box)?.offer)
  const moneyPerKWh =
    offer?.kind === 'neighbour'
      ? offer.energyMoneyPerKWh
      : offer?.kind === 'utility'
        ? job.tariff.blocks[0]?.moneyPerKWh
        : undefined
  return moneyPerKWh === undefined ? null : { moneyPerKWh, years: job.needs.stayMonths / MONTHS_A_YEAR }
}

/** Years that a table of remedies is made of where nobody says. */
export const REMEDY_YEARS = 30

/** One box of a judged design, asked about made years. */
export interface MadeYearsAsked {
  readonly job: Job
  readonly shop: Shop
  readonly design: Design
  readonly results: Pick<Assessment['results'], 'reach' | 'haul'>
  readonly box: string
  readonly yearsCount?: number
}

/** What cannot be made of what is told, in words. */
export interface YearsLack {
  readonly lacks: readonly string[]
}

/**
 * The table of remedies of one box of a judged design, as pieces of work: `remediesStepwise` does them one by one, two workers may share them.
 * What it lacks where no year can be made of what is told, or the box is not laid out.
 */
export function remediesFor(of: MadeYearsAsked): Remedies | YearsLack {
  const task = madeYearsTask(of)
  return 'lacks' in task ? task : remediesOf(task)
}

/** The design of one box through made years, likewise as pieces of work. */
export function designYearsFor(of: MadeYearsAsked): DesignYears | YearsLack {
  const task = madeYearsTask(of)
  return 'lacks' in task ? task : designYearsOf(task)
}

function madeYearsTask({ job, shop, design, results, box, yearsCount }: MadeYearsAsked): RemedyTask | YearsLack {
  const build = design.builds.find((b) => b.box === box)
  if (build === undefined) return { lacks: [`${box} is not laid out in this design.`] }
  const climate = climateForYear(job)
  if ('lacks' in climate) return { lacks: climate.lacks.map((one) => one.said) }
  const rules = rulesOf(job, shop)
  const body = bodyOf(job, box)
  const designs = design.boxes.filter((b) => b.box === box)
  return {
    ...{ job, design, build, body, rules, prices: shop.prices, climate: climate.climate },
    ...{ reach: results.reach.boxes, weighed: results.haul.boxes.find((b) => b.box === box)?.items ?? null },
    yearsCount: yearsCount ?? REMEDY_YEARS,
    skinOf: (air) => skinOf({ job, body, designs, rules, air }),
  }
}
