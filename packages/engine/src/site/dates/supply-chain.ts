import type { Offer } from '../../job/index.ts'
import { source } from '../../kernel/index.ts'
import { type LeadName, usualLead } from './figures.ts'
import type { ShopCrew, TaskGroup } from './result.ts'
import { type Task, toldSpan, usual } from './task.ts'

/** Offers of a source, with the tasks until it stands at the box. */
export interface SupplyChain {
  readonly tasks: readonly Task[]
  /** Task that stands for “the source is there”. */
  readonly there: string
}

interface Asked {
  readonly offer: Offer
  readonly crew: ShopCrew
  /** Behind the name of a task where more than one source has it. */
  readonly suffix: string
  readonly group: TaskGroup
  /** Consents that the supplier waits for. */
  readonly consents: readonly string[]
  /** Tasks at the box before a meter is set. */
  readonly atBox: readonly string[]
}

export const supplyChain = (asked: Asked): SupplyChain =>
  asked.offer.kind === 'utility' ? ofUtility(asked) : asked.offer.kind === 'generator' ? ofSet(asked) : ofNeighbour(asked)

/** Parts of a utility's work before the meter, in the order of its letters. */
const PARTS: readonly (readonly [LeadName, string, string, Task['days']])[] = [
  ['application', 'application to the utility: load list, largest motor, site plan, single line', 'the shop', 'office days'],
  ['visit', 'the utility’s visit', 'the utility', 'days a crew can reach it'],
  ['design', 'the utility’s design and cost letter', 'the utility', 'office days'],
  ['fee', 'the utility’s fee paid', 'the customer', 'office days'],
  ['build', 'the utility builds', 'the utility', 'days a crew can reach it'],
]
/** From this rating on a transformer is ordered for the job. */
const LARGE_KVA = 100

function ofUtility({ offer, crew, suffix, group, consents, atBox }: Asked): SupplyChain {
  const told = offer.leadDays
  const set = usualLead('utility-set')
  const restDays = told === null ? null : Math.max(0, told - set.likely * WEEK_RATIO)
  const shares = PARTS.map(([name]) => usualLead(name).likely)
  const whole = shares.reduce((a, b) => a + b, 0)
  const dug = offer.overhead === true ? 'days a crew can reach it' : 'days a crew can dig'
  const tasks: Task[] = []
  let before = 'order'
  for (const [i, [name, what, who, days]] of PARTS.entries()) {
    const id = `${name}${suffix}`
    const large =
      name === 'build' && told === null && (offer.transformer?.kVA ?? 0) >= LARGE_KVA && offer.transformer?.own !== true
    if (large)
      tasks.push(
        usual('transformer', crew, {
          ...{ id: `transformer${suffix}`, what: `transformer of ${offer.transformer?.kVA} kVA made`, group },
          ...{ who: 'the utility', after: [before] },
        }),
      )
    const after = name === 'build' ? [before, ...consents, ...(large ? [`transformer${suffix}`] : [])] : [before]
    const on = name === 'build' ? dug : days
    tasks.push(
      restDays === null
        ? usual(name, crew, { id, what, group, who, after, days: on })
        : {
            ...{ id, what, group, who, after, days: on, everyDay: true },
            takes: toldSpan((restDays * shares[i]!) / whole),
            together: `lead time of ${offer.id}`,
            rests: source(`facts.supply, ${offer.id}: lead-time, cut into parts as table lead-times has them`, 'told'),
            assumed: [],
          },
    )
    before = id
  }
  const there = `utility-set${suffix}`
  tasks.push(
    usual('utility-set', crew, {
      ...{ id: there, what: 'the utility sets its meter and connects', group, who: 'the utility' },
      ...{ after: [before, ...atBox], days: 'days a crew can reach it' },
    }),
  )
  return { tasks, there }
}

const WEEK_RATIO = 7 / 5

function ofSet({ offer, crew, suffix, group }: Asked): SupplyChain {
  const id = `hire${suffix}`
  const what = `${offer.what} ordered`
  const hire: Task =
    offer.leadDays === null
      ? usual('hire', crew, { id, what, group, who: 'the hirer', after: ['order'] })
      : told({ id, what, group, who: 'the hirer', after: ['order'] }, offer, 'office days')
  const there = `set-there${suffix}`
  return {
    tasks: [
      hire,
      usual('haul', crew, {
        ...{ id: there, what: `${offer.what} brought`, group, who: 'the hirer', after: [id], days: 'road days' },
      }),
    ],
    there,
  }
}

function ofNeighbour({ offer, crew, suffix, group, consents }: Asked): SupplyChain {
  const id = `agreement${suffix}`
  const what = `written agreement with the neighbour: ${offer.what}`
  const agreement: Task =
    offer.leadDays === null
      ? usual('agreement', crew, { id, what, group, who: 'the customer', after: ['order'] })
      : told({ id, what, group, who: 'the customer', after: ['order'] }, offer, 'office days')
  const there = `neighbour-run${suffix}`
  return {
    tasks: [
      agreement,
      usual('neighbour-run', crew, {
        ...{ id: there, what: `feeder of ${Math.round(offer.distanceM)} m laid`, group, who: 'the electrician' },
        ...{ after: [id, ...consents], days: offer.overhead === true ? 'site days' : 'digging days' },
      }),
    ],
    there,
  }
}

const told = (task: Pick<Task, 'id' | 'what' | 'group' | 'who' | 'after'>, offer: Offer, days: Task['days']): Task => ({
  ...{ ...task, days, everyDay: true, takes: toldSpan(offer.leadDays ?? 0) },
  ...{ rests: source(`facts.supply, ${offer.id}: lead-time`, 'told'), assumed: [] },
})
