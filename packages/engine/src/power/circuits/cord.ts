import type { Cord, LoadKind, SizeName } from '../../job/index.ts'
import type { RuleSet } from '../../rules/index.ts'
import type { Connection } from './connection.ts'

/** Colder than the design minimum by this much must the jacket's mark be. @source trade rule, ≤ design minimum − 5 K. Provenance: common practice */
export const COLD_MARGIN_K = 5
/** Air around a cord when nobody told the site's highest. */
export const CORD_AMBIENT_C = 40

export interface CordTask {
  readonly rules: RuleSet
  readonly plug: string
  readonly connection: Connection
  readonly currentA: number
  readonly deviceA: number
  readonly motorConductorA: number | null
  readonly lengthM: number
  readonly kind: LoadKind
  readonly feedV: number
  readonly designMinC: number | null
  readonly ambientC: number
  /** Volts lost already in the run, share of nominal. */
  readonly runDropFrac: number
  readonly privateSource: boolean
  readonly least: SizeName | undefined
}

/** Loaded conductors of a cord: two on one phase, three with a counted neutral or three phases. */
export const cordLoaded = (connection: Connection): 2 | 3 => (connection === 'LN' || connection === 'LL' ? 2 : 3)

/** Types of cord the set's table names, the house one first, hard or extra-hard usage only. */
export function cordTypes(rules: RuleSet): readonly string[] {
  const table = rules.tables['cord-jackets']
  const named =
    table === undefined
      ? []
      : table.rows
          .filter((r) => String(r[1]).split(' ').includes(rules.id) && String(r[2]) !== 'ordinary')
          .map((r) => String(r[0]))
  return [rules.defaults.cordType, ...named.filter((t) => t !== rules.defaults.cordType)]
}

/** The house cord where its jacket is cold enough; else the first that is; else the coldest there is. */
export function cordType(
  rules: RuleSet,
  designMinC: number | null,
): { readonly type: string; readonly jacketMinC: number | null } {
  const known = cordTypes(rules).map((type) => ({ type, jacketMinC: rules.cordColdC(type).value }))
  const wantedC = designMinC === null ? Infinity : designMinC - COLD_MARGIN_K
  const enough = known.find((k) => k.jacketMinC !== null && k.jacketMinC <= wantedC)
  if (enough !== undefined) return enough
  return known.reduce((a, b) => ((b.jacketMinC ?? Infinity) < (a.jacketMinC ?? Infinity) ? b : a))
}

/** Part of the drop limit that is left to feed and supply when the first size is guessed; the network solution decides. */
const LEFT_FOR_FEED_FRAC = 0.01

/**
 * Cord by jacket, then the smallest size whose ampacity reaches the device (so that the device protects it) and the current, then heavier
 * until the closed-form drop of run and cord stays within the set's limit. The largest size stands where none does.
 */
export function cordFor(task: CordTask): Cord {
  const { rules } = task
  const { type, jacketMinC } = cordType(rules, task.designMinC)
  const sizes = rules.cordSizes().filter(stout)
  const needA = task.motorConductorA ?? Math.max(task.deviceA, task.currentA)
  const loaded = cordLoaded(task.connection)
  let at = sizes.findIndex(
    (size) => rules.cordAmpacityA({ size, type, loaded, ambientC: task.ambientC }).value >= needA * (1 - 1e-9),
  )
  if (at < 0) at = sizes.length - 1
  const limit = rules.dropLimit({ kind: task.kind, privateSource: task.privateSource, lengthM: task.lengthM })
  const most = limit.totalFrac - LEFT_FOR_FEED_FRAC
  while (at < sizes.length - 1 && task.runDropFrac + dropFrac(task, sizes[at]!) > most) at++
  const least = task.least === undefined ? -1 : sizes.indexOf(task.least)
  return { plug: task.plug, type, size: sizes[Math.max(at, least)]!, lengthM: task.lengthM, jacketMinC }
}

/** Thinner cords do not last in a yard: 16 AWG or 1.5 mm² at least. House rule. */
function stout(size: SizeName): boolean {
  const mm2 = /^([\d.]+) mm2$/.exec(size)
  if (mm2 !== null) return Number(mm2[1]) >= 1.5
  const awg = /^(\d+) AWG$/.exec(size)
  return awg === null || Number(awg[1]) <= 16
}

/** Approximate drop, in line with the supply: k·I·r·l/U, k = 2 one phase, √3 three-phase; resistance at 60 °C. */
function dropFrac(task: CordTask, size: SizeName): number {
  const { r } = task.rules.impedanceOhmPerM({ size, metal: 'cu', where: 'cord', temperatureC: 60 }).value
  const three = task.connection === 'LLL' || task.connection === 'LLLN'
  return ((three ? Math.sqrt(3) : 2) * task.currentA * r * task.lengthM) / task.feedV
}
