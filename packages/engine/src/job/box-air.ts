import type { Side } from './build.ts'
import type { BoxRow, LeakClass } from './schema/boxes.ts'

/** What is told of a box that only its air asks for. Each absent: nobody said. */
export interface BoxAirFacts {
  readonly visits?: {
    readonly perDayCount?: number
    readonly doorOpenS?: number
    /** On boots and cords, each time. */
    readonly waterKg?: number
  }
  /** A class of table `box-leakage`, or changes of its air an hour at 50 Pa. */
  readonly leakage?: LeakClass | number
  /** Closed all round below. */
  readonly skirted?: boolean
  readonly beside?: readonly Beside[]
}

/** A box, a wall or a bank that stands close to one side, its middle across from the middle of the side. */
export interface Beside {
  readonly side: Side
  readonly distanceM: number
  /** Over the ground that the box stands on. Absent: a standard box. */
  readonly heightM?: number
  /** Absent: a 20 ft box. */
  readonly lengthM?: number
}

/** A stretch of the skyline, bearings clockwise from true north. */
export interface Rise {
  readonly fromDeg: number
  readonly toDeg: number
  readonly heightDeg: number
}

export function boxAirFacts(row: BoxRow): { readonly airFacts?: BoxAirFacts } {
  const { visits, leakage, skirted, beside } = row
  const water = visits?.water
  const told: BoxAirFacts = {
    ...(visits === undefined
      ? {}
      : {
          visits: {
            ...(visits['per-day'] === undefined ? {} : { perDayCount: visits['per-day'] }),
            ...(visits['door-open'] === undefined ? {} : { doorOpenS: visits['door-open'] }),
            ...(water === undefined ? {} : { waterKg: water }),
          },
        }),
    ...(leakage === undefined ? {} : { leakage }),
    ...(skirted === undefined ? {} : { skirted }),
    ...(beside === undefined
      ? {}
      : {
          beside: beside.map((one) => ({
            ...{ side: one.side, distanceM: one.distance },
            ...(one.height === undefined ? {} : { heightM: one.height }),
            ...(one.length === undefined ? {} : { lengthM: one.length }),
          })),
        }),
  }
  return Object.keys(told).length === 0 ? {} : { airFacts: told }
}
