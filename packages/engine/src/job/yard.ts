import type { BoxRow } from './schema/boxes.ts'
import type { SetDown, WORTH_IS } from './schema/built.ts'
import type { JobDocument } from './schema/job.ts'

type Facts = NonNullable<JobDocument['facts']>

/**
 * The place as the questions of the box read it. Null: nobody said; where the schema names what is then assumed or a range, the question
 * that reads it takes that and says so.
 */
export interface YardFacts {
  readonly snow: {
    /** Characteristic, about once in fifty years. */
    readonly groundLoadPa: number | null
    readonly depthM: number | null
    readonly drifting: string | null
  }
  readonly wind: {
    readonly pressurePa: number | null
    readonly pressureIs: 'velocity pressure' | 'net pressure' | null
    readonly level: 'service' | 'ultimate' | null
    /** Absent: 10 m. */
    readonly heightM: number | null
    /** Shape coefficient in a net pressure. Absent: 1.0 to 1.3. */
    readonly coefficientRatio: number | null
    readonly winterFromDeg: number | null
    readonly note: string | null
  }
  readonly ground: {
    /** Absent: firm gravel. */
    readonly surface: string | null
    readonly bearingPa: number | null
    readonly slopeFrac: number | null
  }
  readonly access: {
    readonly roadGradeFrac: number | null
    readonly straightRunM: number | null
    readonly widthM: number | null
    /** In words; absent: a line that is found is taken as live. */
    readonly overheadLine: string | null
    /** Absent: tilt-bed. */
    readonly unload: string | null
    readonly monthsOpen: string | null
    /** Longest box that has room. */
    readonly longestBoxM: number | null
    readonly hours: string | null
  }
  /** `C3`, with what causes it. */
  readonly corrosivity: string | null
  readonly heightLimit: { readonly heightM: number; readonly said: string | null } | null
}

/** Steel and mass of the box that stands, as `facts.built` has them. */
export interface BuiltBody {
  readonly lengthFt: number | null
  readonly heightKind: 'standard' | 'high' | null
  readonly tareKg: number | null
  readonly fitOutKg: number | null
  readonly weighedKg: number | null
  /** In words: there, removed, and why. */
  readonly transportPlate: string | null
  readonly vents: string | null
  /** Colour, insulation, heater, in words; absent: nobody said. */
  readonly paint?: string
  readonly insulation?: string
  readonly heater?: string
  readonly lowestExitM: number | null
  /** Ways it may be lifted and set down; null: nobody said. */
  readonly setDown: readonly SetDown[] | null
  /** Hottest outside air it was proved for. */
  readonly airMaxC: number | null
  /** As it stands, before any change; absent: nobody said. */
  readonly worth?: Worth
}

/** Money of a box that stands, and who says so. */
export interface Worth {
  readonly money: number
  readonly currency: string
  readonly is: (typeof WORTH_IS)[number]
  readonly on: string
  readonly by: string
}

export function yardOf(facts: Facts | undefined): YardFacts {
  const { snow, wind, ground, access, corrosivity, 'height-limit': limit } = facts?.site ?? {}
  return {
    snow: { groundLoadPa: snow?.['ground-load'] ?? null, depthM: snow?.depth ?? null, drifting: snow?.drifting ?? null },
    wind: {
      pressurePa: wind?.pressure ?? null,
      pressureIs: wind?.['pressure-is'] ?? null,
      level: wind?.level ?? null,
      heightM: wind?.height ?? null,
      coefficientRatio: wind?.coefficient ?? null,
      winterFromDeg: wind?.['winter-from'] ?? null,
      note: wind?.note ?? null,
    },
    ground: { surface: ground?.surface ?? null, bearingPa: ground?.bearing ?? null, slopeFrac: ground?.slope ?? null },
    access: {
      roadGradeFrac: access?.['road-grade'] ?? null,
      straightRunM: access?.['straight-run'] ?? null,
      widthM: access?.width ?? null,
      overheadLine: access?.['overhead-line'] ?? null,
      unload: access?.unload ?? null,
      monthsOpen: access?.['months-open'] ?? null,
      longestBoxM: access?.['longest-box'] ?? null,
      hours: access?.hours ?? null,
    },
    corrosivity: corrosivity ?? null,
    heightLimit: limit === undefined ? null : { heightM: limit.height, said: limit.said ?? null },
  }
}

export const UNTOLD_YARD: YardFacts = yardOf(undefined)

const M_PER_FT = 0.3048

export function builtBodyOf(row: Facts['built']): BuiltBody | null {
  if (row === undefined) return null
  return {
    lengthFt: row.length === undefined ? null : row.length / M_PER_FT,
    heightKind: row.height ?? null,
    tareKg: row.tare ?? null,
    fitOutKg: row['fit-out'] ?? null,
    weighedKg: row.weighed ?? null,
    transportPlate: row['transport-plate'] ?? null,
    vents: row.vents ?? null,
    ...(row.paint === undefined ? {} : { paint: row.paint }),
    ...(row.insulation === undefined ? {} : { insulation: row.insulation }),
    ...(row.heater === undefined ? {} : { heater: row.heater }),
    lowestExitM: row['lowest-exit'] ?? null,
    setDown: row['set-down'] ?? null,
    airMaxC: row['air-max'] ?? null,
    ...(row.worth === undefined ? {} : { worth: worthOf(row.worth) }),
  }
}

const worthOf = ({ money, is, on, by }: NonNullable<NonNullable<Facts['built']>['worth']>): Worth => ({
  ...{ money: money.amount, currency: money.currency, is, on, by },
})

/** What a box that is wanted says beside its size. */
export const boxWords = (
  row: BoxRow,
): { readonly paint?: string; readonly onSkids?: boolean; readonly moves?: string; readonly cooled?: string } => ({
  ...(row.paint === undefined ? {} : { paint: row.paint }),
  ...(row['on-skids'] === undefined ? {} : { onSkids: row['on-skids'] }),
  ...(row.moves === undefined ? {} : { moves: row.moves }),
  ...(row.cooled === undefined ? {} : { cooled: row.cooled }),
})
