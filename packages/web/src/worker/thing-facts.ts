import type { DrawnBox } from '@plugstead/drawings'
import { rulesOf } from '@plugstead/engine/assess'
import type { BoxDesign, Circuit, Pin } from '@plugstead/engine/job'
import type { AtWork } from './at-work.ts'
import type { Choice, Fact, ThingAnswer } from './protocol.ts'
import { plugOf } from './things.ts'

/** Facts and choices of one thing, for its tag. */
export function thingAnswer(at: AtWork, box: string, id: string): ThingAnswer | null {
  const drawn = at.drawn.find((d) => d.build.box === box)
  const design = at.found.design.boxes.find((b) => b.box === box)
  if (drawn === undefined || design === undefined) return null
  const item = drawn.build.fit.items.find((one) => one.id === id)
  if (item !== undefined) {
    const { low, high, told, basis } = item.massKg
    const hung: readonly Fact[] = [
      ...(item.hangsOn.length === 0
        ? []
        : [{ key: 'hangs on' as const, value: item.hangsOn.join(', '), unit: '', firm: 'worked out' as const }]),
      { key: 'size', value: item.sizeMm.map((mm) => Math.round(mm)).join(' × '), unit: 'mm', firm: 'worked out' },
      low === high
        ? { key: 'mass', value: high, unit: 'kg', firm: told ? 'told' : 'worked out', by: basis }
        : { key: 'mass', low, value: high, unit: 'kg', firm: 'bounded', by: basis },
    ]
    if (item.kind === 'panel') return { id, facts: [...panelFacts(at, box), ...hung], choices: panelChoices(at, design) }
    if (item.kind === 'receptacle' || item.kind === 'junction box') {
      const plug = plugOf(item.kind, id)
      return { id, facts: [...plugFacts(at, plug), ...hung], choices: plugChoices(at, design, plug) }
    }
    return { id, facts: hung, choices: [] }
  }
  return openingAnswer(at, drawn, id)
}

function openingAnswer(at: AtWork, drawn: DrawnBox, id: string): ThingAnswer | null {
  const opening = drawn.build.skin.openings.find((o) => o.id === id)
  if (opening === undefined) return null
  const row = at.found.assessment.results.skin.boxes.find((b) => b.box === drawn.build.box)?.openings.find((o) => o.id === id)
  return {
    id,
    facts: [
      { key: 'size', value: `${Math.round(opening.widthMm)} × ${Math.round(opening.heightMm)}`, unit: 'mm', firm: 'worked out' },
      { key: 'class', value: opening.class, unit: '', firm: 'worked out' },
      ...(row === undefined
        ? []
        : [{ key: 'above ground' as const, value: row.aboveGroundMm / 1000, unit: 'm', firm: 'worked out' as const }]),
    ],
    choices: [],
  }
}

function plugFacts(at: AtWork, tag: string): readonly Fact[] {
  const plug = at.job.plugs.find((p) => p.tag === tag)
  if (plug === undefined) return []
  const { assessment } = at.found
  const volts = assessment.results.reach.boxes
    .flatMap((b) => b.states.filter((s) => s.id === 'all on').flatMap((s) => s.plugs))
    .find((p) => p.plug === tag)
  const working = assessment.workings.find((w) => w.id === `${tag}/drop` || w.id.startsWith(`${tag}/drop`))?.id
  return [
    { key: 'feeds', value: plug.what, unit: '', firm: 'told' },
    { key: 'power', value: plug.powerW, unit: 'W', firm: plug.powerTold === false ? 'worked out' : 'told' },
    {
      key: 'cord length',
      value: plug.cordM,
      unit: 'm',
      firm: at.job.assumed.some((a) => a.path.endsWith(`${plug.row}.cord`)) ? 'assumed' : 'told',
    },
    ...(volts === undefined
      ? []
      : [
          {
            key: 'volts' as const,
            value: volts.voltageV,
            unit: 'V',
            firm: 'worked out' as const,
            ...(working === undefined ? {} : { working }),
          },
        ]),
    { key: 'current', value: plug.currentA, unit: 'A', firm: plug.currentTold ? 'told' : 'worked out' },
  ]
}

function plugChoices(at: AtWork, design: BoxDesign, tag: string): readonly Choice[] {
  const circuit = design.circuits.find((c) => c.plugs.includes(tag))
  if (circuit === undefined) return []
  const cord = circuit.cords.find((c) => c.plug === tag)
  const { id } = circuit
  const rules = rulesOf(at.job, at.shop)
  return [
    ...(cord === undefined ? [] : [{ ...choice(at, 'cord', cord.size, '', `cords.${tag}.size`), options: rules.cordSizes() }]),
    { ...choice(at, 'breaker', circuit.device.ratingA, 'A', `circuits.${id}.device`), options: ratings(rules, circuit) },
    { ...choice(at, 'wire', circuit.run.line.size, '', `circuits.${id}.line`), options: rules.sizes.map((s) => s.name) },
    choice(at, 'outlet', circuit.outlet, ''),
  ]
}

/** Standard ratings of a device's family, smallest first. */
function ratings(rules: ReturnType<typeof rulesOf>, { device }: Circuit): readonly number[] {
  const found: number[] = []
  for (let next = rules.nextDeviceA(1, device.family).value; next !== null && next <= MOST_A; ) {
    found.push(next)
    next = rules.nextDeviceA(next + 0.1, device.family).value
  }
  return found
}
const MOST_A = 125

function panelFacts(at: AtWork, box: string): readonly Fact[] {
  const { results, workings } = at.found.assessment
  const circuits = results.circuits.boxes.find((b) => b.box === box)
  const sources = results.faults.boxes.find((b) => b.box === box)?.sources ?? []
  const bus = sources.flatMap((s) => s.buses).find((b) => b.kind === 'panel')
  const fault = workings.find((w) => w.id.startsWith(`${box}/interrupting`) || w.id === `${box}/faults-interrupting`)?.id
  const heavier = circuits?.legs.toSorted((a, b) => b.peakA - a.peakA)[0]
  return [
    ...(circuits === undefined
      ? []
      : [{ key: 'used ways' as const, value: circuits.panel.usedCount, unit: '', firm: 'worked out' as const }]),
    ...(heavier === undefined
      ? []
      : [{ key: 'heavier leg' as const, value: heavier.peakA, unit: 'A', firm: 'worked out' as const }]),
    ...(bus?.highest == null
      ? []
      : [
          {
            key: 'highest fault current' as const,
            value: bus.highest.currentA,
            unit: 'A',
            firm: 'worked out' as const,
            ...(fault === undefined ? {} : { working: fault }),
          },
        ]),
  ]
}

export function panelChoices(at: AtWork, { serviceA, panel }: BoxDesign): readonly Choice[] {
  return [
    choice(at, 'service', serviceA, 'A', 'service.rating'),
    choice(at, 'ways', panel.ways, '', 'panel.ways'),
    choice(at, 'interrupts', panel.interruptingKA, 'kA', 'panel.interruptingKA'),
    choice(at, 'feed', panel.feed.line.size, ''),
  ]
}

export function choice(at: AtWork, key: Choice['key'], value: Choice['value'], unit: string, path?: string): Choice {
  const pin: Pin | undefined = path === undefined ? undefined : at.job.pins.find((p) => p.path === path)
  return { key, value, unit, ...(path === undefined ? {} : { path }), ...(pin === undefined ? {} : { pin }) }
}
