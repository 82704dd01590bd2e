import type { BoxDesign, Device, Electrode, OwnTransformer, Panel, Run, SizeName, Wire } from '../../job/index.ts'
import type { RuleSet, System } from '../../rules/index.ts'
import { deviceFamilyFor } from './device.ts'
import { raceWires, sizeIndex } from './wire.ts'

export interface FeedTask {
  readonly rules: RuleSet
  readonly system: System
  readonly deviceA: number
  readonly lengthM: number
  readonly overhead: boolean
  readonly ambientC: number
  /** Largest unbalance in any switch position, after what the set lets off. */
  readonly neutralA: number
  readonly protective: boolean
  readonly least: SizeName | undefined
}

/**
 * Air around a feed: outdoors where no more than a tenth of it, and 3 m, lies in the box; else the inside air.
 * @source NEC 310.14(A)(2), exception: 3 m or 10 % at the lower ampacity. Provenance: memory
 */
export function feedAmbientC(lengthM: number, insideHotC: number, designMaxC: number | null): number {
  const outdoorsC = designMaxC ?? OUTDOORS_C
  return lengthM * SHORT_FRAC >= INSIDE_M ? outdoorsC : Math.max(outdoorsC, insideHotC)
}
const INSIDE_M = 2
const SHORT_FRAC = 0.1
/** Taken where nobody told the site's highest. House default. */
const OUTDOORS_C = 40

/** Conductors in parallel are tried up to this many; more is another design. */
const MOST_SETS = 6

/** Three-phase connection of a whole panel, or its like on fewer legs. */
export const panelConnection = (system: System): 'LN' | 'LLN' | 'LLLN' =>
  system.legs.length === 3 ? 'LLLN' : system.legs.length === 2 ? 'LLN' : 'LN'

/**
 * Feed of a panel: lines by the main device, neutral by the largest unbalance and never under the electrode conductor, a protective
 * conductor where the neutral is not bonded at the panel.
 */
export function feedRun(task: FeedTask): Run {
  const { rules, system } = task
  const family = deviceFamilyFor(rules, task.deviceA)
  const loaded = system.legs.length === 3 ? 3 : 2
  const carrying = Math.max(2, system.legs.length)
  const base = {
    metal: 'cu' as const,
    insulation: rules.defaults.insulation,
    continuousA: 0,
    deviceA: task.deviceA,
    deviceFamily: family,
    loaded,
    carrying,
    circuits: 1,
    ambientC: task.ambientC,
    multiOutlet: false,
    motor: false,
  } as const
  for (let sets = 1; sets <= MOST_SETS; sets++) {
    const found = rules.conductorFor({ ...base, otherA: task.deviceA, sets }).value
    if (found !== null) return made(task, found, sets, base)
  }
  // Too hot for any: the largest stands, and the judgement says that it does not hold.
  return made(task, rules.sizes[rules.sizes.length - 1]!.name, MOST_SETS, base)
}

function made(task: FeedTask, found: SizeName, sets: number, base: Omit<Parameters<RuleSet['ampacityA']>[1], 'otherA'>): Run {
  const { rules, system } = task
  const line = task.least !== undefined && sizeIndex(rules, task.least) > sizeIndex(rules, found) ? task.least : found
  const wire = (size: SizeName): Wire => ({ size, metal: 'cu', insulation: base.insulation })
  const neutral =
    system.neutral || system.kind === 'single' ? wire(neutralSize(task, { ...base, otherA: task.neutralA, sets }, line)) : null
  const protective = task.protective
    ? wire(rules.protectiveFor({ deviceA: task.deviceA, line, grownFrom: found, metal: 'cu' }).value)
    : null
  const wires = raceWires({ connection: panelConnection(system), line: wire(line), neutral, protective })
  const trade = task.overhead ? null : rules.racewayFor(wires, rules.defaults.raceway).value
  return {
    lengthM: task.lengthM,
    line: wire(line),
    neutral,
    protective,
    raceway: trade === null ? null : { kind: rules.defaults.raceway, trade },
    sets,
  }
}

/** Smallest size that carries the unbalance, not under the electrode conductor; parallel neutrals not under the lines. Over the line only where harmonics ask it. */
function neutralSize(task: FeedTask, conductor: Parameters<RuleSet['ampacityA']>[1], line: SizeName): SizeName {
  const { rules } = task
  const floor = (conductor.sets ?? 1) > 1 ? line : rules.electrodeConductorFor({ line, metal: 'cu', electrode: 'ring' }).value
  for (let i = Math.max(0, sizeIndex(rules, floor)); i < rules.sizes.length; i++) {
    const size = rules.sizes[i]!.name
    if (rules.ampacityA(size, conductor).value >= task.neutralA) return size
  }
  return line
}

/** Rods and the conductor to them, as the set asks. */
export function electrodeFor(rules: RuleSet, line: SizeName): Electrode {
  const asked = rules.electrodes().value
  const size = rules.electrodeConductorFor({ line, metal: 'cu', electrode: 'rods' }).value
  return {
    kind: 'rods',
    count: asked.rods,
    lengthM: asked.rodM,
    diameterM: asked.rodDiameterM,
    spacingM: asked.spacingM,
    conductor: { size, metal: 'cu', insulation: rules.defaults.insulation },
  }
}

/**
 * Where the panel's neutral stands. Bonded here only where the box's main is the first disconnect of what feeds it and nothing switches
 * between sources above it: of a network that leaves the bond to us, of an own transformer, or of a set whose bond the set's rules put here.
 */
export function panelBond(task: {
  readonly fed: boolean
  readonly ownTransformer: boolean
  readonly kind: 'utility' | 'generator' | 'neighbour'
  readonly earthing: BoxDesign['earthing']
  readonly transfer: BoxDesign['transfer']
  readonly setBond: BoxDesign['setBond']
}): Panel['bond'] {
  if (task.fed) return 'neutral not bonded here'
  if (task.ownTransformer) return 'neutral bonded here'
  const first = task.transfer === 'none'
  if (task.kind === 'utility' && first && (task.earthing === 'service bond' || task.earthing === 'TN-C-S'))
    return 'neutral bonded here'
  if (task.kind === 'generator' && task.setBond === 'at the first disconnect') return 'neutral bonded here'
  return 'neutral not bonded here'
}

/** Inrush that the primary device must let pass, times the rated current. @source CE Code design aid, 12 × for 0.1 s. Provenance: read */
const INRUSH_RATIO = 12

/** Primary device and run of the box's own transformer: the smallest rating that lets the inrush pass within the set's largest. */
export function transformerFor(
  task: Omit<FeedTask, 'deviceA' | 'neutralA' | 'least'> & {
    readonly transformer: Omit<OwnTransformer, 'primary' | 'primaryRun'>
    readonly primarySystem: System
    readonly interruptingKA: number
  },
): OwnTransformer {
  const { rules, transformer: t } = task
  const k = t.phases === 3 ? Math.sqrt(3) : 1
  const primaryA = (t.kVA * 1000) / (k * t.primaryV)
  const secondaryA = (t.kVA * 1000) / (k * t.secondaryV)
  const most = rules.transformerDevice({ primaryA, secondaryProtected: true, dry: true, secondaryA }).value.primaryMaxA
  let ratingA = rules.nextDeviceA(primaryA * 1.25).value ?? Math.ceil(primaryA * 1.25)
  for (
    let next: number | null = ratingA;
    next !== null && next <= most * (1 + 1e-9);
    next = rules.nextDeviceA(next + 1e-6).value
  ) {
    ratingA = next
    if (rules.tripBand(deviceFamilyFor(rules, next), next).magneticFromRatio * next >= INRUSH_RATIO * primaryA) break
  }
  const primary: Device = {
    ratingA,
    poles: t.phases === 3 ? 3 : 2,
    family: deviceFamilyFor(rules, ratingA),
    interruptingKA: task.interruptingKA,
  }
  const primaryRun = feedRun({
    ...task,
    system: task.primarySystem,
    deviceA: ratingA,
    neutralA: 0,
    protective: true,
    least: undefined,
  })
  return { ...t, primary, primaryRun: { ...primaryRun, neutral: null } }
}
