import type { Job } from '../job/index.ts'
import { source } from '../kernel/index.ts'
import type { CostInputs } from './cost.ts'
import { type Draft, type Table, unitLine } from './lines.ts'
import { hourPrice, hoursLine, overheadPrice } from './rates.ts'
import type { Lacking } from './result.ts'

/** The box that stands, by its name in the job: the document tells of one box as built, and it is the first one wanted. Null: none stands. */
export const standingBox = (job: Pick<Job, 'boxes' | 'builtBody'>): string | null =>
  job.builtBody === null ? null : (job.boxes[0]?.id ?? null)

/**
 * What it is worth as it stands, in place of the used container and of everything that hangs in it. The book value is a cost; of a price that
 * is asked, the cost is not known, and it counts as what the shop could have had for it.
 */
export function worthLine({ job }: CostInputs, box: string, lacking: Lacking[]): readonly Draft[] {
  const worth = job.builtBody?.worth
  if (worth === undefined) lacking.push({ what: `${box} as it stands`, why: 'nobody said what it is worth: facts.built.worth' })
  return [
    unitLine({
      ...{ id: 'box/as it stands', group: 'box', box, quantity: 1, per: 'each' },
      what: `${box} as it stands${worth === undefined ? '' : `, ${worth.is}`}`,
      from: worth === undefined ? 'facts.built.worth' : worth.by,
      price: worth === undefined ? null : { money: worth.money, currency: worth.currency, date: worth.on },
      currency: job.money.currency,
      rests: source(worth === undefined ? 'facts.built.worth' : `facts.built.worth: ${worth.by}, ${worth.on}`, 'told'),
    }),
  ]
}

/** Parts and hours of the change list, at the rates of any other hour. */
export function changeLines(inputs: CostInputs, box: string, table: Table, lacking: Lacking[]): readonly Draft[] {
  const { changes, policy, prices } = inputs
  if (changes === undefined || changes.box !== box) {
    lacking.push({ what: `changes of ${box}`, why: 'only a plan seeks what must be changed on a box that stands' })
    return []
  }
  lacking.push(
    ...changes.lacking.map((what) => ({
      what: `${what}, changes of ${box}`,
      why: 'no price in the table, or nobody has looked',
    })),
    ...changes.uncounted.map((what) => ({
      what: `hours of ${what}, changes of ${box}`,
      why: 'not counted before somebody has looked',
    })),
  )
  const rests = source('the change list of the plan', 'computed')
  const parts = unitLine({
    ...{
      id: 'material/changes',
      group: 'material',
      box,
      what: 'parts of the changes',
      quantity: 1,
      per: 'lot',
      from: 'change list',
      rests,
    },
    ...{ price: { money: changes.partsMoney, currency: changes.currency, date: '' }, currency: prices.currency },
    ...{ spread: policy.spread.material, drawnWith: 'material changes' },
  })
  const rate = hourPrice(inputs, 'electrician', table)
  const shop = overheadPrice(inputs, table, box)
  const of = { box, what: 'hours of the changes' }
  return [
    ...(changes.partsMoney === 0 ? [] : [parts]),
    hoursLine({ ...of, id: 'hours/changes', group: 'labour' }, changes.hours, rate, 'electrician'),
    hoursLine(
      { ...of, id: 'overhead/changes', group: 'overhead', what: 'shop overhead on the hours of the changes' },
      changes.hours,
      shop,
      'electrician',
    ),
  ]
}
