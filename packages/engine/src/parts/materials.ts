import type { BoxDesign, Circuit, Cord, Device, Run, Wire } from '../job/index.ts'
import { stripsOf } from './light/lamps.ts'
import { fanPriced, heatersPriced } from './own-priced.ts'

/** Something a box needs, by the id of its price. */
export interface Material {
  readonly id: string
  readonly for: string
  readonly quantity: number
  readonly per: 'm' | 'm2' | 'each'
}

type Take = (id: string, use: string, quantity: number, per: Material['per']) => void

/** Everything of a box that the price table knows, each id and use once, in the order of the building. Lengths to 0.1 m. */
export function materialsOf(box: BoxDesign): readonly Material[] {
  const sums = new Map<string, Material>()
  const take: Take = (id, use, quantity, per) => {
    if (quantity <= 0) return
    const key = `${id}|${use}`
    const had = sums.get(key)
    sums.set(key, { id, for: use, per, quantity: (had?.quantity ?? 0) + quantity })
  }
  takeFeed(box, take)
  takePanel(box, take)
  takeCircuits(box, take)
  takeCords(box, take)
  takeElectrode(box, take)
  takeControl(box, take)
  return [...sums.values()].map((m) => ({ ...m, quantity: m.per === 'm' ? Math.round(m.quantity * 10) / 10 : m.quantity }))
}

/** Up to the first of these a device costs its plain price; above it, so much more a pole. */
const KA_STEPS: readonly number[] = [10, 25, 65, 100]
export const deviceId = (device: Device): string => `device/${device.ratingA} A/${device.poles}`

function takeDevice(id: string, device: Device, use: string, take: Take): void {
  take(id, use, 1, 'each')
  const step = KA_STEPS.find((s) => device.interruptingKA <= s) ?? KA_STEPS[KA_STEPS.length - 1]
  if (step !== KA_STEPS[0]) take(`interrupting/${step} kA`, use, device.poles, 'each')
}

function takeRun(run: Run, lines: number, use: string, take: Take): void {
  const wire = (w: Wire | null, count: number) => {
    if (w !== null) take(`conductor/${w.size}/${w.metal}`, use, count * run.sets * run.lengthM, 'm')
  }
  wire(run.line, lines)
  wire(run.neutral, 1)
  wire(run.protective, 1)
  if (run.raceway !== null) take(`raceway/${run.raceway.kind}/${run.raceway.trade}`, use, run.lengthM * run.sets, 'm')
}

function takeFeed(box: BoxDesign, take: Take): void {
  const poles = box.panel.main.poles
  if (box.fedFrom !== null) takeRun(box.fedFrom.run, poles, 'feeder from the other box', take)
  else takeRun(box.panel.feed, poles, 'feed', take)
  take('work/feed', 'feed', 1, 'each')
  const t = box.transformer
  if (t === null) return
  takeRun(t.primaryRun, t.primary.poles, 'primary of the transformer', take)
  take(`transformer/${t.kVA} kVA/${t.phases}`, 'own transformer', 1, 'each')
  takeDevice(deviceId(t.primary), t.primary, 'primary of the transformer', take)
  take('work/transformer', 'own transformer', 1, 'each')
}

function takePanel(box: BoxDesign, take: Take): void {
  const { panel } = box
  const phases = panel.main.poles >= 3 ? '/3' : ''
  take(`panel/${panel.busA} A/${panel.ways}${phases}`, 'panel', 1, 'each')
  takeDevice(`main/${panel.main.ratingA} A/${panel.main.poles}`, panel.main, 'main', take)
  take('work/panel', 'panel', 1, 'each')
  take('label/set', 'labels', 1, 'each')
  const used = box.circuits.reduce((n, c) => n + c.ways.length, 0)
  take('stub/raceway', 'stub-outs for the next electrician', stubCount(panel.ways - used), 'each')
}

/** One empty raceway to the wall for every four spare ways. House rule. */
export const stubCount = (spareWays: number): number => (spareWays <= 0 ? 0 : Math.ceil(spareWays / 4))

/** Outlets of a circuit: one for each plug with a cord of its own, one for hard-wired and own loads. */
export const outletCount = (circuit: Circuit): number => {
  const shared = circuit.cords.filter((c) => c.sharedWith !== undefined).length
  return Math.max(1, circuit.plugs.length - shared)
}

const isFeeder = (c: Circuit): boolean => c.plugs.length === 0 && c.own === null

function takeCircuits(box: BoxDesign, take: Take): void {
  const raceways = new Set<string>()
  for (const c of box.circuits) {
    takeDevice(deviceId(c.device), c.device, isFeeder(c) ? 'feeder to another box' : 'branch circuits', take)
    if (isFeeder(c)) continue
    const shared = c.run.raceway?.shared
    const alone = shared === undefined || !raceways.has(shared)
    if (shared !== undefined) raceways.add(shared)
    takeRun(alone ? c.run : { ...c.run, raceway: null }, c.legs.length, 'branch circuits', take)
    const outlets = outletCount(c)
    if (c.own === 'stub' || c.own === 'spare') continue
    if (/^hard[ -]?wired/i.test(c.outlet)) take('outlet/hard-wired', 'connections', outlets, 'each')
    else take(`outlet/${c.outlet}`, 'outlets', outlets, 'each')
    take('box/outlet', 'outlets', outlets, 'each')
    if (c.shock.kind !== 'none') take(shockId(c), 'shock protection', outlets, 'each')
    takeOwn(c, take)
    take('work/circuit', 'branch circuits', 1, 'each')
  }
}

/** What a circuit of the box itself feeds. */
function takeOwn(circuit: Circuit, take: Take): void {
  const { own, ownLoad } = circuit
  if (own === null) return
  const bought = (id: string, count: number) => take(id, 'the box itself', count, 'each')
  const powerW = ownLoad?.powerW ?? 0
  const priced =
    own === 'heater' ? heatersPriced({ at: ownLoad?.at ?? 'room', powerW }) : own === 'fan' ? fanPriced(powerW) : null
  if (priced !== null) bought(priced.id, priced.count)
  else bought(`own/${own}`, own === 'light' ? stripsOf(circuit) : 1)
  if (own === 'light') bought('own/light-sensor-and-switch', 1)
}

/** Residual devices are priced by kind, form and the next of these ratings. */
const SHOCK_STEPS_A: readonly number[] = [20, 32, 50, 63, 100, 125, 250]
export function shockId(c: Circuit): string {
  const rating = SHOCK_STEPS_A.find((a) => c.device.ratingA <= a) ?? SHOCK_STEPS_A[SHOCK_STEPS_A.length - 1]
  const form = c.shock.form === null ? '' : ` ${c.shock.form}`
  return `shock/${c.shock.kind}${form}/${rating} A`
}

const cores = (c: Circuit): number => (c.connection === 'LN' || c.connection === 'LL' ? 3 : c.connection === 'LLLN' ? 5 : 4)
const coreSuffix = (n: number): string => (n === 3 ? '' : `/${n}`)

function takeCords(box: BoxDesign, take: Take): void {
  for (const c of box.circuits) {
    for (const cord of c.cords) {
      if (cord.sharedWith !== undefined) continue
      take(cordId(cord, cores(c)), 'cords', cord.lengthM, 'm')
      take(`cord-ends/${cores(c)}`, 'cords', 1, 'each')
      take('work/cord', 'cords', 1, 'each')
    }
  }
}

export const cordId = (cord: Cord, coreCount: number): string => `cord/${cord.size}/${cord.type}${coreSuffix(coreCount)}`

/** Electrode conductor from the panel to the first rod. House default. */
const TO_ELECTRODE_M = 6

function takeElectrode(box: BoxDesign, take: Take): void {
  const { electrode: e } = box
  if (e.kind === 'rods') {
    take(`rod/${e.lengthM} m`, 'electrode', e.count, 'each')
    take('rod/clamp', 'electrode', e.count, 'each')
  }
  const wireM = TO_ELECTRODE_M + (e.kind === 'rods' ? Math.max(0, e.count - 1) * e.spacingM : e.lengthM)
  take(`conductor/${e.conductor.size}/${e.conductor.metal}`, 'electrode', wireM, 'm')
  take('work/electrode', 'electrode', 1, 'each')
}

function takeControl(box: BoxDesign, take: Take): void {
  const staged = box.circuits.filter((c) => c.plugs.length > 0)
  if (box.staging.control !== 'none') {
    const starts = new Set(staged.flatMap((c) => c.plugs.map((p) => box.staging.startH[p])).filter((h) => h !== undefined))
    take('control/timer', 'staging', starts.size, 'each')
    take('control/contactor', 'staging', staged.length, 'each')
  }
  if (box.staging.control === 'interlock') take('control/interlock', 'staging', 1, 'each')
  if (box.transfer !== 'none') {
    const poles = box.panel.main.poles + (box.transfer === 'neutral switched' ? 1 : 0)
    take(`transfer/${box.panel.main.ratingA} A/${poles}`, 'transfer', 1, 'each')
  }
}
