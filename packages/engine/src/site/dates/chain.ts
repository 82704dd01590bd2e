import type { Design, Job, Offer, TaskFact } from '../../job/index.ts'
import { dayNumberD, isoOrNull, source, weakest } from '../../kernel/index.ts'
import { cureDays } from './cure.ts'
import { figure, type LeadName } from './figures.ts'
import type { ShopCrew } from './result.ts'
import { nextD, yearDay } from './season.ts'
import { crewDays, type ShopWork, tradeOf } from './shop-days.ts'
import { supplyChain } from './supply-chain.ts'
import { type CrewTrade, type Task, toldSpan, usual } from './task.ts'

/** What the chain reads of a job. */
export type ChainJob = Pick<Job, 'needs' | 'offers' | 'phases' | 'boxes' | 'builtBody' | 'dates' | 'rules' | 'site' | 'yard'>
export const chained = (job: ChainJob): ChainJob => ({
  needs: job.needs,
  offers: job.offers,
  phases: job.phases,
  boxes: job.boxes,
  builtBody: job.builtBody,
  rules: job.rules,
  site: job.site,
  yard: job.yard,
  ...(job.dates === undefined ? {} : { dates: job.dates }),
})

/** What the chain reads of a design: who feeds each box. */
export interface ChainDesign {
  readonly boxes: readonly Pick<Design['boxes'][number], 'box' | 'phase' | 'offer' | 'interim'>[]
}

export interface ChainAsked {
  readonly job: ChainJob
  readonly design: ChainDesign
  readonly shop: readonly ShopWork[]
  readonly crew: ShopCrew
  /** Null: not known. */
  readonly fromD: number | null
  /** Another source than the design's, to see what it would bring. */
  readonly offer?: Offer
  /** Another interim than the design's. */
  readonly interim?: Offer
  /** Hours of what must be changed on the box that stands, as the plan found them; absent: no plan has sought them. */
  readonly changes?: StandingHours
}

export interface StandingHours {
  readonly box: string
  readonly hours: { readonly low: number; readonly middle: number; readonly high: number }
  readonly uncounted: readonly string[]
}

export interface Chain {
  /** Each stands behind those it waits for. */
  readonly tasks: readonly Task[]
  /** What nobody told and no table knows: these make the answer unknown. */
  readonly lacks: readonly { readonly path: string; readonly said: string }[]
  readonly assumed: readonly { readonly path: string; readonly said: string; readonly source: string }[]
  readonly interim: Offer | null
  readonly offers: readonly Offer[]
  /** Last task in the shop of each box. */
  readonly shopEnds: readonly string[]
  /** Whether the hours of the shop are known at all. */
  readonly workKnown: boolean
}

/** Goods by the first word of their price row: lead time, and the step of the build that waits for them. */
const CLASSES: readonly (readonly [LeadName, string, string, readonly string[]])[] = [
  ['buy steel', 'channel, frames, sheet, bolts', '2', ['strut', 'frame', 'sheet', 'mesh', 'pad', 'bolt', 'nut']],
  ['buy door', 'door', '3', ['door']],
  ['buy panel', 'panel and main', '8', ['panel', 'main']],
  [
    'buy devices',
    'breakers, contactors, shock devices',
    '8',
    ['device', 'interrupting', 'shock', 'control', 'own', 'bond', 'item'],
  ],
  ['buy transfer', 'transfer switch', '8', ['transfer']],
  ['buy transformer', 'transformer of the box', '8', ['transformer']],
  ['buy outlets', 'outlets and plugs', '8', ['outlet', 'plug', 'stub']],
  [
    'buy wire',
    'wire, raceway, fittings, rods',
    '8',
    ['conductor', 'raceway', 'connector', 'coupling', 'nipple', 'strap', 'gland', 'rod'],
  ],
  ['buy cords', 'cords', '10', ['cord', 'cord-ends']],
]

/**
 * Every task from the order to the switch, with what it waits for and where its time comes from: told in the job, told on the shop's page,
 * worked out from the hours, or taken from the table and named as assumed.
 * @source order of the work: practice of the trade and of utilities. Provenance: common practice
 */
export function chainOf(asked: ChainAsked): Chain {
  const { job, design, crew } = asked
  const facts = job.dates
  const first = job.phases[0]?.id
  const here = design.boxes.filter((b) => b.phase === first)
  const offers =
    asked.offer === undefined
      ? offersOf(
          job,
          here.map((b) => b.offer),
        )
      : [asked.offer]
  const interim =
    asked.interim ??
    offersOf(
      job,
      here.flatMap((b) => (b.interim === null ? [] : [b.interim])),
    )[0] ??
    null
  const skids = job.boxes.every((b) => b.onSkids === true)
  const lacks: { path: string; said: string }[] = []
  const assumed: { path: string; said: string; source: string }[] = []
  const tasks: Task[] = [
    {
      ...{ id: 'order', what: 'order', group: 'order', who: 'the customer', after: [], days: 'every day', everyDay: true },
      ...{ takes: { low: 1, likely: 1, high: 1 }, rests: source('the day of the order itself', 'computed'), assumed: [] },
    },
    usual('drawings', crew, { what: 'drawings, agreed with the customer', group: 'papers', who: 'the shop', after: ['order'] }),
    usual('permit', crew, {
      what: 'electrical permit',
      group: 'papers',
      who: 'the authority having jurisdiction',
      after: ['drawings'],
    }),
  ]
  const consents = consentsOf(job, crew, tasks, lacks)
  const workKnown = asked.shop.length > 0 || workTold(job)
  const shopEnds = shopChain(asked, tasks, lacks, assumed)
  const haul = usual('haul', crew, {
    ...{ what: 'box hauled and set down', group: 'site', who: 'the haulier', days: 'road days' },
    after: [...shopEnds, 'haul-booking', ...(skids ? [] : ['pads'])],
  })
  tasks.push(
    usual('haul-booking', crew, { what: 'truck and crane booked', group: 'site', who: 'the haulier', after: ['drawings'] }),
    ...(skids
      ? []
      : [
          usual('pads', crew, {
            what: 'ground levelled, pads set',
            group: 'site',
            who: 'the site',
            after: ['permit'],
            days: 'pad days',
          }),
          usual('trench', crew, {
            ...{ what: 'trench and earth electrode', group: 'site', who: 'the site', after: ['permit'], days: 'digging days' },
          }),
        ]),
    haul,
    usual('connect', crew, {
      ...{ what: 'cords, feeder and earth connected', group: 'site', who: 'the electrician', days: 'site days' },
      after: ['haul', ...(skids ? [] : ['trench'])],
    }),
    usual('inspection', crew, {
      ...{ what: 'inspection asked for and held', group: 'papers', who: 'the inspector', days: 'days a crew can reach it' },
      after: ['connect', 'permit'],
    }),
  )
  const there: string[] = []
  for (const offer of offers) {
    const suffix = offers.length === 1 ? '' : `.${offer.id}`
    const chain = supplyChain({ offer, crew, suffix, group: 'supply', consents, atBox: ['inspection'] })
    tasks.push(...chain.tasks)
    there.push(chain.there)
  }
  tasks.push(
    usual('switch-on', crew, {
      ...{ what: 'tests on site, switched on', group: 'live', who: 'the licensed electrician', days: 'site days' },
      after: [...there, 'inspection', ...(offers.length === 0 ? ['connect'] : [])],
    }),
  )
  if (offers.length === 0)
    lacks.push({ path: 'facts.supply.offers', said: 'No source is chosen, so nobody knows when it comes.' })
  if (interim !== null && !offers.includes(interim)) {
    const chain = supplyChain({ offer: interim, crew, suffix: '.interim', group: 'interim', consents, atBox: ['inspection'] })
    tasks.push(
      ...chain.tasks,
      usual('switch-on', crew, {
        ...{
          id: 'interim-on',
          what: `tests, switched on from ${interim.what}`,
          group: 'interim',
          who: 'the licensed electrician',
        },
        ...{ after: [chain.there, 'inspection'], days: 'site days' },
      }),
    )
  }
  for (const row of facts?.tasks ?? [])
    if (!tasks.some((t) => t.id === row.task))
      lacks.push({
        path: `facts.tasks.${row.task}`,
        said: `“${row.task}” is no task of this chain: ${tasks.map((t) => t.id).join(', ')}.`,
      })
  return { tasks: tasks.map((t) => asTold(t, facts?.tasks ?? [])), lacks, assumed, interim, offers, shopEnds, workKnown }
}

const offersOf = (job: ChainJob, ids: readonly string[]): readonly Offer[] =>
  [...new Set(ids)].flatMap((id) => job.offers.filter((o) => o.id === id))

/** Permits and consents of the job that are not given yet; the supplier builds after them. */
function consentsOf(job: ChainJob, crew: ShopCrew, tasks: Task[], lacks: Chain['lacks'][number][]): readonly string[] {
  return (job.dates?.permits ?? []).flatMap((row, i) => {
    const id = `consent-${i + 1}`
    if (row.status === 'given') return []
    const path = `facts.permits[${i}]`
    if (row.status === 'refused') {
      lacks.push({ path, said: `“${row.what}” was refused: nobody knows what comes in its place.` })
      return []
    }
    const easement = /easement|wayleave|right of way/i.test(row.what)
    const told = job.dates?.tasks.some((t) => t.task === id && (t.done !== null || t.takesDays !== null))
    if (easement && told !== true)
      lacks.push({
        path,
        said: `“${row.what}” is another owner’s to give, and nobody said how long it takes: tell it as task ${id} under facts.tasks.`,
      })
    tasks.push(usual('consent', crew, { id, what: row.what, group: 'papers', who: row.by ?? 'not said', after: ['drawings'] }))
    return [id]
  })
}

/** The box bought or brought, the goods, then what is done in the shop, box by box. Gives the last task of each. */
function shopChain(
  asked: ChainAsked,
  tasks: Task[],
  lacks: Chain['lacks'][number][],
  assumed: Chain['assumed'][number][],
): readonly string[] {
  const { job, shop, crew, fromD } = asked
  const stands = job.builtBody === null ? null : (job.boxes[0]?.id ?? null)
  const bought = shop.filter((b) => b.box !== stands)
  if (stands !== null) tasks.push(...boxComes(job, crew, fromD))
  if (stands === null || bought.length > 0)
    tasks.push(
      usual('buy box', crew, {
        what: bought.length > 1 ? `${bought.length} boxes bought` : 'box bought',
        group: 'buy',
        who: 'the dealer',
        after: ['order'],
      }),
    )
  const classes = new Set(shop.flatMap((b) => b.goods.map((id) => id.slice(0, id.indexOf('/')))))
  const goods = CLASSES.filter(([, , , of]) => of.some((c) => classes.has(c)))
  for (const [lead, what] of goods) tasks.push(usual(lead, crew, { what, group: 'buy', who: 'the dealer', after: ['drawings'] }))
  tasks.push(
    usual('buy paint', crew, { what: 'paint', group: 'buy', who: 'the dealer', after: ['drawings'] }),
    usual('label-booking', crew, {
      what: 'field evaluation booked',
      group: 'papers',
      who: 'the body that labels',
      after: ['drawings'],
    }),
  )
  const home = stands === null ? 'buy-box' : 'box-home'
  if (shop.length === 0) {
    const said = 'The box was not laid out, so nobody knows the hours of the shop: tell them as task shop-work under facts.tasks.'
    if (!workTold(job)) lacks.push({ path: 'facts.tasks', said })
    tasks.push(shopWork([home, 'drawings', 'buy-paint']))
    return ['shop-work']
  }
  return shop.map((of) => {
    const goodsIds = goods.map(([lead]) => lead.replaceAll(' ', '-'))
    const several = shop.length > 1
    if (of.box !== stands) return stepChain(asked, { of, from: 'buy-box', several, goods }, tasks, lacks, assumed)
    if (workTold(job) || asked.changes?.box === of.box) {
      const after = [home, 'drawings', ...goodsIds, 'buy-paint']
      tasks.push(workTold(job) ? shopWork(after) : changeWork(asked.changes!, after, crew))
      if (!workTold(job) && asked.changes!.uncounted.length > 0)
        assumed.push({
          path: 'facts.tasks',
          said: `hours of ${asked.changes!.uncounted.join(', ')} are not in the days of shop-work: nobody has counted them`,
          source: 'the change list of the plan',
        })
      return 'shop-work'
    }
    assumed.push({
      path: 'facts.tasks',
      said: 'the hours of a box that stands are counted as if all of it were built anew: an upper end, until shop-work is told',
      source: 'the change list of plan says what is kept',
    })
    return stepChain(asked, { of, from: home, several, goods }, tasks, lacks, assumed)
  })
}

interface Stepped {
  readonly of: ShopWork
  /** What brings the steel. */
  readonly from: string
  readonly several: boolean
  readonly goods: typeof CLASSES
}

/** The steps of one box in the order of the trade, the paint, the label. Each takes the whole crew of its trade. Gives the last of them. */
function stepChain(
  { crew }: ChainAsked,
  { of, from, several, goods }: Stepped,
  tasks: Task[],
  lacks: Chain['lacks'][number][],
  assumed: Chain['assumed'][number][],
): string {
  const suffix = several ? `.${of.box}` : ''
  const whose = several ? ` of ${of.box}` : ''
  let before = from
  let pending = goods
  for (const step of of.steps) {
    const trade = tradeOf(step)
    if (step.id === '12') {
      tasks.push(
        usual('label', crew, {
          ...{ id: `label${suffix}`, what: `field evaluation, label on${whose}`, group: 'papers', who: 'the body that labels' },
          after: [before, 'label-booking'],
        }),
      )
      before = `label${suffix}`
      continue
    }
    if (trade === null || step.hours === null) continue
    const { low, middle, high } = step.hours
    const id = `shop-${step.id}${suffix}`
    // A step without hours hands what it waits for to the next one.
    const waits = pending.filter(([, , at]) => placeOf(at) <= placeOf(step.id)).map(([lead]) => lead.replaceAll(' ', '-'))
    pending = pending.filter(([, , at]) => placeOf(at) > placeOf(step.id))
    tasks.push({
      ...{ id, what: `step ${step.id}${whose}: ${STEP_WORDS[step.id] ?? step.words}`, group: 'shop', who: step.who },
      after: [before, ...(step.id === '2' ? ['drawings'] : []), ...(step.id === '5' ? ['buy-paint'] : []), ...waits],
      ...crewed(trade),
      takes: { low: crewDays(low, trade, crew), likely: crewDays(middle, trade, crew), high: crewDays(high, trade, crew) },
      ...restsOnHours(`hours of step ${step.id}${whose}`, middle, trade, crew),
    })
    before = id
    if (step.id === '5') before = cure(tasks, before, suffix, whose, crew, lacks, assumed)
  }
  if (before === from) lacks.push({ path: 'facts.tasks', said: `No step of the build${whose} has hours.` })
  return before
}

const crewed = (trade: CrewTrade) => ({ days: `shop days of the ${trade}` as const, everyDay: false, crew: trade })

const restsOnHours = (what: string, hours: number, trade: CrewTrade, crew: ShopCrew): Pick<Task, 'rests' | 'assumed'> => ({
  rests: source(
    `${what}, ${hours.toPrecision(3)} h, by people and hours of the ${trade}`,
    crew.people?.[trade] === undefined ? 'common practice' : 'told',
  ),
  assumed: crew.people?.[trade] === undefined ? [`shop.people.${trade}`] : [],
})

/** What must be changed on a box that stands, by the electrician whose hours the change list counts. */
function changeWork({ box, hours }: StandingHours, after: readonly string[], crew: ShopCrew): Task {
  const days = (h: number): number => crewDays(h, 'electrician', crew)
  return {
    ...{ id: 'shop-work', what: `changes of ${box}`, group: 'shop', who: 'the electrician', after },
    ...crewed('electrician'),
    takes: { low: days(hours.low), likely: days(hours.middle), high: days(hours.high) },
    ...restsOnHours('hours of the change list', hours.middle, 'electrician', crew),
  }
}

/** `1b` stands between 1 and 2. */
const placeOf = (step: string): number => Number.parseInt(step, 10) + (/[a-z]$/.test(step) ? 0.5 : 0)

const workTold = (job: ChainJob): boolean =>
  job.dates?.tasks.some((t) => t.task === 'shop-work' && (t.done !== null || t.takesDays !== null)) ?? false

const shopWork = (after: readonly string[]): Task => ({
  ...{ id: 'shop-work', what: 'work in the shop', group: 'shop', who: 'the shop', after, days: 'office days', everyDay: false },
  ...{ takes: { low: 0, likely: 0, high: 0 }, rests: source('nobody said', 'assumed'), assumed: [] },
})

function boxComes(job: ChainJob, crew: ShopCrew, fromD: number | null): readonly Task[] {
  const told = job.dates?.boxFree ?? null
  const of = told === null ? null : yearDay(told)
  const freeD =
    told !== null && isoOrNull(told) !== null ? dayNumberD(told) : of !== null && fromD !== null ? nextD(of, fromD) : null
  return [
    {
      ...{
        id: 'box-free',
        what: 'box free at its old place',
        group: 'buy',
        who: 'the customer',
        after: ['order'],
        days: 'every day',
        everyDay: true,
      },
      ...{ takes: { low: 0, likely: 0, high: 0 }, ...(freeD === null ? {} : { notBeforeD: freeD }) },
      rests: source(
        told === null ? 'nobody said: free on the day of the order' : `facts.built.free-from: “${told}”`,
        told === null ? 'assumed' : 'told',
      ),
      assumed: told === null ? ['facts.built.free-from'] : [],
    },
    usual('haul', crew, {
      id: 'box-home',
      what: 'box brought to the shop',
      group: 'buy',
      who: 'the haulier',
      after: ['box-free'],
    }),
  ]
}

/** Paint hardens on every day, by the air it stands in. */
function cure(
  tasks: Task[],
  before: string,
  suffix: string,
  whose: string,
  crew: ShopCrew,
  lacks: Chain['lacks'][number][],
  assumed: Chain['assumed'][number][],
): string {
  const bayC = crew.bayC ?? figure('bay')
  if (crew.bayC === undefined && !assumed.some((a) => a.path === 'shop.paint-bay'))
    assumed.push({
      path: 'shop.paint-bay',
      said: `paint hardens in air of ${bayC} C`,
      source: 'a shop that is heated a little: common practice',
    })
  const days = cureDays(bayC)
  if (days === null && !lacks.some((l) => l.path === 'shop.paint-bay'))
    lacks.push({
      path: 'shop.paint-bay',
      said: `At ${bayC} C paint does not harden; the build stands still until it is warmer.`,
    })
  tasks.push({
    ...{
      id: `cure${suffix}`,
      what: `paint${whose} hardens at ${bayC} C`,
      group: 'shop',
      who: 'nobody',
      after: [before],
      days: 'every day',
      everyDay: true,
    },
    takes: toldSpan(days ?? 0),
    rests: source('t = 7 d · 2^((20 − T)/10): table dates-figures', 'memory'),
    assumed: crew.bayC === undefined ? ['shop.paint-bay'] : [],
  })
  return `cure${suffix}`
}

/** Steps in few words. */
const STEP_WORDS: Readonly<Record<string, string>> = {
  '1': 'box received and surveyed',
  '1b': 'swept and washed',
  '2': 'openings scribed and cut',
  '3': 'frames, pads and feet welded',
  '3b': 'seats of the snow frame welded to the rails',
  '4': 'leak test',
  '5': 'blasted, primed, painted',
  '7': 'channel hung, bonded',
  '8': 'gear hung, raceways bent',
  '9': 'wire pulled, landed, torqued',
  '10': 'vents, heater, light, cords',
  '11': 'tests in the shop',
  '13': 'weighed, as-built papers',
  '13b': 'snow frame set once, marked, taken off',
  '14': 'crated, sealed, loaded',
}

/** What the job tells of a task stands before every table. */
function asTold(task: Task, rows: readonly TaskFact[]): Task {
  const row = rows.find((r) => r.task === task.id)
  if (row === undefined) return task
  const by = source(`facts.tasks, ${task.id}${row.by === null ? '' : `: ${row.by}`}`, 'told')
  const begun =
    row.notBefore === null ? task : { ...task, notBeforeD: Math.max(task.notBeforeD ?? -Infinity, dayNumberD(row.notBefore)) }
  if (row.done !== null) return { ...begun, doneD: dayNumberD(row.done) + 1, rests: by, assumed: [] }
  if (row.takesDays === null && row.leastDays === null && row.mostDays === null)
    return { ...begun, rests: { ...task.rests, provenance: weakest(task.rests.provenance, 'told') } }
  const likely = row.takesDays ?? Math.min(Math.max(task.takes.likely, row.leastDays ?? 0), row.mostDays ?? Infinity)
  const { together: _, ...alone } = begun
  return {
    ...alone,
    everyDay: true,
    takes: toldSpan(likely, row.leastDays, row.mostDays),
    spreadTold: row.leastDays !== null && row.mostDays !== null,
    rests: by,
    assumed: [],
  }
}
