import type { BoxBody } from '../../box/index.ts'
import type { SnowFramePlan } from '../../haul/result.ts'
import type { BoxBuild, BoxDesign, Circuit, PlacedItem } from '../../job/index.ts'
import { Fault } from '../../kernel/index.ts'
import type { Prices } from '../../parts/index.ts'
import type { RuleSet } from '../../rules/index.ts'
import { amount } from '../figures.ts'
import type { MeasureNeed } from '../measures.ts'
import {
  type HoursLine,
  type HoursSheet,
  type RacewaySheet,
  type SectionCut,
  type ShopFactors,
  TRADES,
  type Trade,
  type WirePull,
} from '../result.ts'
import { edgeM, outsideOf, paintAreaM2, weldM } from './areas.ts'
import {
  hoursOf,
  type LabourItem,
  labourEach,
  racewayItem,
  type ShopItem,
  shopEach,
  spreadOf,
  sumHours,
  wireItem,
} from './units.ts'

export interface HoursRequest {
  readonly body: BoxBody
  readonly build: Pick<BoxBuild, 'skin' | 'fit'>
  readonly whole: BoxDesign
  readonly raceways: readonly RacewaySheet[]
  readonly cuts: readonly SectionCut[]
  readonly wires: readonly WirePull[]
  readonly labelsCount: number
  readonly snowFrame: SnowFramePlan | null
  readonly measures: readonly MeasureNeed[]
  readonly rules: Pick<RuleSet, 'sizes'>
  readonly prices: Prices
  readonly own: NonNullable<ShopFactors['hours']>
}

/** Hours by trade, each line a count of the design times a unit of a table; every sum with its low and high end. */
export function hoursSheet(of: HoursRequest): HoursSheet {
  const paintM2 = paintAreaM2(outsideOf(of.body))
  const weld = weldM(of.build)
  const lines = [
    ...steelLines(of, paintM2, weld),
    ...frameLines(of),
    ...measureLines(of),
    ...hangLines(of),
    ...wireLines(of),
    ...testLines(of),
  ].filter((l) => l.quantity > 0)
  const byTrade = Object.fromEntries(
    TRADES.map((t) => [t, sumHours(lines.filter((l) => l.trade === t).map((l) => l.hours))]),
  ) as HoursSheet['byTrade']
  const rates = TRADES.map((t) => (Object.hasOwn(of.prices.rows, `hour/${t}`) ? (of.prices.rows[`hour/${t}`] ?? null) : null))
  const cost = (end: 'low' | 'middle' | 'high') =>
    Math.round(100 * TRADES.reduce((sum, t, i) => sum + byTrade[t][end] * rates[i]!.money, 0)) / 100
  return {
    lines,
    byTrade,
    total: sumHours(TRADES.map((t) => byTrade[t])),
    money: rates.some((r) => r === null || r.per !== 'h' || r.currency !== undefined)
      ? null
      : { low: cost('low'), middle: cost('middle'), high: cost('high') },
    factors: Object.fromEntries(TRADES.map((t) => [t, of.own[t] ?? 1])) as HoursSheet['factors'],
    paintM2,
    weldM: weld,
  }
}

/** A line of the shop's own table; `what` where the item alone does not say it. */
function own(of: HoursRequest, step: string, item: ShopItem, quantity: number): HoursLine {
  const { trade, hours, per } = shopEach(item)
  return {
    trade,
    what: item,
    quantity,
    unit: per,
    hoursEach: hours,
    hours: hoursOf(quantity, hours, spreadOf(of.own[trade], false)),
    step,
    rests: `table shop-hours, ${item}`,
  }
}

/** A line of the installation table, by the electrician, in a congested space. */
function install(of: HoursRequest, step: string, item: LabourItem, what: string, quantity: number, unit = 'each'): HoursLine {
  const each = labourEach(item)
  const trade: Trade = 'electrician'
  return {
    trade,
    what,
    quantity,
    unit,
    hoursEach: each,
    hours: hoursOf(quantity, each, spreadOf(of.own[trade], true)),
    step,
    rests: `table labour, ${item}`,
  }
}

function steelLines(of: HoursRequest, paintM2: number, weld: number): readonly HoursLine[] {
  const { openings } = of.build.skin
  const fixings = of.build.fit.strut.flatMap((p) => p.fixings)
  const count = (how: string) => fixings.filter((f) => f.how === how).length
  const round = openings.filter((o) => o.shape === 'round')
  const square = openings.filter((o) => o.shape === 'rectangle')
  const entries = openings.reduce((sum, o) => sum + (o.plate?.entries.length ?? 0), 0)
  const cuts = (kinds: readonly SectionCut['kind'][]) =>
    of.cuts
      .filter((c) => kinds.includes(c.kind))
      .flatMap((c) => c.plan.bars)
      .reduce((sum, b) => sum + b.times * b.pieces.filter((p) => p.sawn).length, 0)
  const strutM = of.cuts
    .filter((c) => c.kind === 'strut')
    .flatMap((c) => c.pieces)
    .reduce((sum, p) => sum + (p.count * p.lengthMm) / 1000, 0)
  return [
    own(of, '1', 'survey of the box', 1),
    own(of, '1', 'set-up and put away', 1),
    own(of, '1b', 'sweep and wash', paintM2),
    own(of, '1b', 'masking and cleaning up', 1),
    own(of, '2', 'layout of openings', openings.length),
    own(
      of,
      '2',
      'cut out',
      square.reduce((sum, o) => sum + edgeM(o), 0),
    ),
    own(of, '2', 'hole saw', round.length + count('bolt through flat')),
    own(of, '3', 'frame fitted and tacked', openings.filter((o) => o.frame !== null).length),
    own(of, '3', 'continuous weld', weld),
    own(of, '3', 'grind and prime welds', weld),
    own(of, '3', 'pad welded', count('weld to pad') + count('bolt to pad')),
    own(of, '3', 'strut end welded', count('weld to rail')),
    own(of, '3', 'gland or bolt hole in a plate', entries),
    own(of, '3', 'saw cut', cuts(['strut', 'frame'])),
    own(of, '4', 'leak test', 1),
    own(of, '5', 'blast or abrade', paintM2),
    own(of, '5', 'prime', paintM2),
    own(of, '5', 'top coat', 2 * paintM2),
    own(of, '5', 'touch-up after welding', 1),
    own(of, '7', 'strut hung and bolted', strutM),
    own(of, '7', 'bonding jumper', of.build.fit.bonds.length),
    own(of, '8', 'saw cut', cuts(['raceway'])),
  ]
}

/** A frame over the roof: its seats welded, once set and taken off again. */
function frameLines(of: HoursRequest): readonly HoursLine[] {
  const plan = of.snowFrame
  if (plan === null) return []
  const { deckSheets: s } = plan
  return [
    own(of, '3b', 'scaffold beside the roof', 1),
    own(of, '3b', 'pad welded', plan.seats.length),
    own(of, '3b', 'gland or bolt hole in a plate', 2 * plan.boltsCount),
    own(of, '13b', 'scaffold beside the roof', 1),
    own(of, '13b', 'bearer set and bolted', plan.bearers.length),
    own(of, '13b', 'deck laid and screwed', (s.count * s.lengthMm * s.widthMm) / 1e6),
  ]
}

/** Paint, foam, hoods and what else keeps it dry and cool. */
function measureLines(of: HoursRequest): readonly HoursLine[] {
  return of.measures.map((m) => ({
    trade: m.trade,
    what: m.what,
    quantity: m.quantity,
    unit: m.per,
    hoursEach: m.hours / m.quantity,
    hours: hoursOf(m.quantity, m.hours / m.quantity, spreadOf(of.own[m.trade], false)),
    step: m.step,
    rests: `table air-measures, ${m.measure}`,
  }))
}

function hangLines(of: HoursRequest): readonly HoursLine[] {
  const { items } = of.build.fit
  const kind = (...kinds: readonly PlacedItem['kind'][]) => items.filter((i) => kinds.includes(i.kind))
  const inCabinets = of.whole.circuits.filter((c) => c.ownLoad?.at === 'cabinet').length
  const shocked = (i: PlacedItem) => of.whole.circuits.some((c) => i.circuits.includes(c.id) && c.shock.kind !== 'none')
  const outlets = kind('receptacle')
  const staged = of.whole.staging.control === 'none' ? 0 : of.whole.circuits.filter((c) => c.plugs.length > 0).length
  const pipes = [...Map.groupBy(of.raceways, (r) => racewayItem(r.kind, r.trade))]
  return [
    install(of, '8', '42-circuit panelboard, set and feeders', 'panel set and fed', kind('panel').length),
    install(of, '8', '100 A fused disconnect', 'service disconnect set', kind('service disconnect').length),
    own(of, '8', 'meter base or transfer', kind('meter', 'transfer').length),
    own(of, '8', 'own transformer set', kind('transformer').length),
    install(
      of,
      '8',
      '4 in square box',
      'boxes of receptacles, connections and stubs',
      kind('receptacle', 'junction box', 'stub').length,
    ),
    own(of, '8', 'thing hung', kind('surge device', 'controls', 'contactors', 'extinguisher', 'earth bar').length),
    own(of, '8', 'heavy thing hung by two', items.filter((i) => i.massKg.high >= amount('heavy')).length),
    ...pipes.map(([item, own]) =>
      install(of, '8', item, `raceway ${item}`, own.reduce((sum, r) => sum + r.developedMm, 0) / 1000, 'm'),
    ),
    own(
      of,
      '8',
      'pull elbow or pull box',
      of.raceways.reduce((sum, r) => sum + r.fittings.elbows + r.fittings.pullBoxes, 0),
    ),
    install(of, '9', 'duplex receptacle', 'receptacles', outlets.filter((i) => !shocked(i)).length),
    install(of, '9', 'GFCI receptacle', 'receptacles with shock protection', outlets.filter(shocked).length),
    own(of, '9', 'contactor wired', staged),
    install(of, '10', '4 ft strip light', 'light strips', kind('light').length),
    install(
      of,
      '10',
      'single-pole switch',
      'switch, sensor, thermostat',
      kind('light switch', 'light sensor', 'thermostat').length,
    ),
    own(of, '10', 'thing hung', kind('heater', 'fan').length + inCabinets),
  ]
}

function wireLines(of: HoursRequest): readonly HoursLine[] {
  const poles = (test: (c: Circuit) => boolean) => of.whole.circuits.filter(test).length
  const area = (size: string): number => {
    const found = of.rules.sizes.find((s) => s.name === size)?.areaMm2
    if (found === undefined) throw new Fault('shop/size-unknown', size)
    return found
  }
  const wires = [
    ...Map.groupBy(
      of.wires.filter((w) => w.circuit !== 'bond'),
      (w) => wireItem(area(w.size)),
    ),
  ]
  const cords = of.whole.circuits.flatMap((c) => c.cords).filter((c) => c.sharedWith === undefined)
  return [
    ...wires.map(([item, own]) =>
      install(
        of,
        '9',
        item,
        `${item} pulled`,
        own.reduce((sum, w) => sum + w.cutM, 0),
        'm',
      ),
    ),
    install(
      of,
      '9',
      '1P breaker',
      'single-pole devices',
      poles((c) => c.device.poles === 1),
    ),
    install(
      of,
      '9',
      '2P breaker',
      'two-pole devices',
      poles((c) => c.device.poles === 2),
    ),
    install(
      of,
      '9',
      '3P breaker to 100 A',
      'three-pole devices',
      poles((c) => c.device.poles >= 3),
    ),
    own(of, '9', 'mark and label', of.labelsCount),
    own(of, '10', 'cord made up', cords.length),
  ]
}

function testLines(of: HoursRequest): readonly HoursLine[] {
  const circuits = of.whole.circuits.filter((c) => c.own !== 'spare').length
  return [
    own(of, '11', 'dead test', circuits),
    own(of, '11', 'live test', circuits),
    own(of, '11', 'test of the whole box', 1),
    own(of, '12', 'inspector attended', 1),
    own(of, '13', 'weigh, photographs, as-built papers', 1),
    own(of, '14', 'load, seal, ship', 1),
  ]
}
