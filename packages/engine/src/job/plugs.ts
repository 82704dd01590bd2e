import { bounded, motorEfficiencyFrac, POWER_FACTOR, told } from './bounds.ts'
import { type Notes, POWER } from './notes.ts'
import type { MachineRow } from './schema/machines.ts'
import { expandTag, rangeCount } from './tags.ts'
import { windowH } from './times.ts'
import type { LoadKind, MotorPlate, Phase, Plug, Span } from './types.ts'

/** What a row is read against. */
export interface Setting {
  readonly phases: readonly Phase[]
  readonly boxes: readonly string[]
  readonly seasonDays: number | undefined
  readonly designMinC: number | null
  /** Line voltage at the panel, to tell line-line machines from line-neutral ones. */
  readonly lineLineV: number
}

/** Tags of the plugs of every row, in order; a row that could not be read has none. */
export const tagsOf = (row: MachineRow): readonly string[] => expandTag(row.tag, row.count ?? 1)

/** Machine that each plug of a row belongs to, in their order. */
export function machinesOfRow(row: MachineRow): readonly string[] {
  const tags = tagsOf(row)
  return row.machine === undefined ? tags : machinesOf(row.machine, tags.length)
}

/** Rows become plugs. Rows whose watts or volts cannot be known are left out and named as missing. */
export function plugsOf(rows: readonly MachineRow[], setting: Setting, note: Notes): readonly Plug[] {
  const tagged = new Map(rows.map((row) => [row.tag, tagsOf(row)]))
  return rows.flatMap((row, index) => plugsOfRow(row, `needs.machines[${index}]`, setting, tagged, note))
}

function plugsOfRow(
  row: MachineRow,
  path: string,
  setting: Setting,
  tagged: ReadonlyMap<string, readonly string[]>,
  note: Notes,
): readonly Plug[] {
  const voltageV = row.voltage
  const phases = row.phases ?? 1
  const pf = powerFactor(row, path, note)
  const power = powerOf(row, pf, phases, path, note)
  if (row.kind === undefined) note.lacks(`${path}.kind`, row.tag, `${row.tag} does not say what kind of load it is.`, POWER)
  if (voltageV === undefined) note.lacks(`${path}.voltage`, row.tag, `${row.tag} does not say at which voltage it is fed.`, POWER)
  if (power === null)
    note.lacks(`${path}.power`, row.tag, `${row.tag} gives neither watts nor what they could be worked out from.`, POWER)
  if (row.kind === undefined || voltageV === undefined || power === null) return []
  const tags = tagsOf(row)
  const hosts = (row['shares-plug-of'] ?? []).flatMap((host) => tagged.get(host) ?? [host])
  const machines = machinesOfRow(row)
  const window = windowOf(row, path, note)
  const hoursPerDay = hoursOf(row, window, path, setting, note)
  const kva = power / pf.low
  const computedA = kva / (voltageV * (phases === 3 ? Math.sqrt(3) : 1))
  const shared = neutralShare(row, phases, setting, path, note)
  const cords = row.cord ?? [
    note.or(
      undefined,
      30,
      `${path}.cord`,
      `${row.tag}: cord of 30 m`,
      'the call’s default for the farthest machine: common practice',
    ),
  ]
  const daysPerYear =
    row.days ??
    note.or(
      undefined,
      setting.seasonDays ?? 365,
      `${path}.days`,
      `${row.tag}: used on ${setting.seasonDays ?? 365} days a year`,
      setting.seasonDays === undefined ? 'every day: nobody said' : 'days of the season',
    )
  const outlet = row.outlet ?? ''
  if (outlet === '')
    note.lacks(`${path}.outlet`, row.tag, `${row.tag} does not say into what it is plugged.`, ['circuits', 'reach', 'faults'])
  return tags.map(
    (tag, i): Plug => ({
      tag,
      row: row.tag,
      what: row.what ?? row.tag,
      kind: row.kind as LoadKind,
      powerW: power,
      powerTold: row.power !== undefined,
      voltageV,
      phases,
      powerFactorFrac: pf,
      currentA: row.current ?? computedA,
      currentTold: row.current !== undefined,
      outlet,
      hoursPerDay,
      fromH: window.fromH,
      readyH: window.toH,
      daysPerYear,
      dutyFrac: row.duty ?? 1,
      cordM: cords.length === 1 ? (cords[0] as number) : (cords[i] as number),
      ...(row.motor === undefined ? {} : { motor: motorOf(row.motor, row.kind as LoadKind) }),
      ...(row['element-plate'] === undefined
        ? {}
        : { rated: { powerW: row['element-plate'].power, voltageV: row['element-plate'].voltage } }),
      ...(hosts[i] === undefined ? {} : { plugShared: hosts[i] as string }),
      machine: machines[i] ?? tag,
      use: row.use ?? usual(row.kind as LoadKind),
      fedBy: fedBy(row, setting),
      essential: row.essential ?? false,
      ...(shared === null ? {} : { lineNeutralFrac: shared }),
      leaksDc: row['leaks-dc'] ?? (row.kind === 'heater' ? false : null),
    }),
  )
}

/** Host plugs also carry the name of the plug they share. */
export function withHosts(plugs: readonly Plug[]): readonly Plug[] {
  const shared = new Set(plugs.flatMap((p) => (p.plugShared === undefined ? [] : [p.plugShared])))
  return plugs.map((p) => (shared.has(p.tag) && p.plugShared === undefined ? { ...p, plugShared: p.tag } : p))
}

function machinesOf(name: string, count: number): readonly string[] {
  return count > 1 && rangeCount(name) === count ? expandTag(name, count) : Array.from({ length: count }, () => name)
}

const usual = (kind: LoadKind): Plug['use'] => (kind === 'charger' ? 'charger' : kind === 'motor' ? 'pump' : 'general')

function powerFactor(row: MachineRow, path: string, note: Notes): Span {
  if (row['power-factor'] !== undefined) return told(row['power-factor'])
  const [low, high] = POWER_FACTOR[row.kind ?? 'mixed']
  const range = bounded(
    low,
    high,
    row.kind === 'heater' ? 'a heating element is a resistance' : `usual for a ${row.kind ?? 'mixed'} load: common practice`,
  )
  return low === high
    ? range
    : note.span(undefined, range, `${path}.power-factor`, `${row.tag}: power factor between ${low} and ${high}`)
}

/** Watts at the voltage fed: as written; else the element's P0·(V/V0)²; else V·I·pf·k; else shaft power over efficiency. Null: cannot be known. */
function powerOf(row: MachineRow, pf: Span, phases: 1 | 3, path: string, note: Notes): number | null {
  if (row.power !== undefined) return row.power
  const element = row['element-plate']
  if (element !== undefined && row.voltage !== undefined) return element.power * (row.voltage / element.voltage) ** 2
  if (row.current !== undefined && row.voltage !== undefined) {
    return note.or(
      undefined,
      row.voltage * row.current * pf.high * (phases === 3 ? Math.sqrt(3) : 1),
      `${path}.power`,
      `${row.tag}: watts from current, voltage and a power factor of ${pf.high}`,
      'P = V·I·pf, √3 in three phases',
    )
  }
  const shaft = row.motor?.shaft
  if (shaft === undefined) return null
  const efficiency = row.motor?.efficiency ?? motorEfficiencyFrac(shaft)
  const why =
    row.motor?.efficiency === undefined
      ? `an efficiency of ${efficiency * 100} % (common practice for its size)`
      : 'its efficiency'
  return note.or(
    undefined,
    shaft / efficiency,
    `${path}.power`,
    `${row.tag}: watts from shaft power and ${why}`,
    'P = shaft / efficiency',
  )
}

function windowOf(row: MachineRow, path: string, note: Notes): { readonly fromH: number; readonly toH: number } {
  if (row.window !== undefined) return row.window
  const night = row.kind === 'heater'
  const taken = night ? { fromH: 19, toH: 7 } : { fromH: 0, toH: 0 }
  return note.or(
    undefined,
    taken,
    `${path}.window`,
    `${row.tag}: may be on ${night ? '19:00 to 07:00' : 'all day'}`,
    'the call’s default, one start at 07:00: common practice',
  )
}

/** Hours wanted: 2 h of heat to −15 °C, 3 h to −25 °C, 4 h below; other kinds the whole window. */
function hoursOf(
  row: MachineRow,
  window: { readonly fromH: number; readonly toH: number },
  path: string,
  setting: Setting,
  note: Notes,
): number {
  if (row.hours !== undefined) return row.hours / 3600
  const whole = windowH(window)
  if (row.kind !== 'heater') return note.or(undefined, whole, `${path}.hours`, `${row.tag}: runs its whole window`, 'nobody said')
  const cold = setting.designMinC
  const heat = Math.min(whole, cold === null ? 4 : cold >= -15 ? 2 : cold >= -25 ? 3 : 4)
  return note.or(
    undefined,
    heat,
    `${path}.hours`,
    `${row.tag}: ${heat} h of heat`,
    '2 h to -15 C, 3 h to -25 C, 4 h below: common practice',
  )
}

/** Outlets of two lines and neutral, by their names: the neutral may carry part of the load. */
const TWO_LINES_AND_NEUTRAL = /L?14-\d|125\/250 V|four-wire/

function neutralShare(row: MachineRow, phases: 1 | 3, setting: Setting, path: string, note: Notes): Span | null {
  const share = row['line-neutral-share']
  if (share !== undefined) return told(share)
  if (phases !== 1 || row.voltage !== setting.lineLineV || !TWO_LINES_AND_NEUTRAL.test(row.outlet ?? '')) return null
  return note.span(
    undefined,
    bounded(0, 0.5, 'heat line to line, outlets line to neutral: common practice'),
    `${path}.line-neutral-share`,
    `${row.tag}: 0 to 50 % of it between one line and neutral`,
  )
}

function motorOf(plate: NonNullable<MachineRow['motor']>, kind: LoadKind): MotorPlate {
  return {
    ...(plate.shaft === undefined ? {} : { shaftW: plate.shaft, hp: plate.shaft / 745.6998715822702 }),
    ...(plate['full-load'] === undefined ? {} : { fullLoadA: plate['full-load'] }),
    ...(plate['locked-rotor'] === undefined ? {} : { lockedRotorA: plate['locked-rotor'] }),
    ...(plate['code-letter'] === undefined ? {} : { codeLetter: plate['code-letter'] }),
    start: plate.start ?? (kind === 'drive' ? 'drive' : 'direct'),
    ...(plate['start-ratio'] === undefined ? {} : { startRatio: plate['start-ratio'] }),
    ...(plate.efficiency === undefined ? {} : { efficiencyFrac: plate.efficiency }),
  }
}

/** Box by phase. One box feeds all; with several an absent answer leaves the machine fed by none, which is a finding. */
function fedBy(row: MachineRow, setting: Setting): Readonly<Record<string, string>> {
  const said = row['fed-by'] ?? (setting.boxes.length === 1 ? setting.boxes[0] : undefined)
  if (said === undefined) return {}
  const by = setting.phases.map((p) => [p.id, typeof said === 'string' ? said : said[p.id]] as const)
  return Object.fromEntries(by.filter(([, box]) => box !== undefined && box !== 'nothing')) as Record<string, string>
}
