import type { ExitWay } from '../job/index.ts'
import type { Worked } from '../kernel/index.ts'
import type { Cited } from './rule-set.ts'

/** What a rule set says of hanging, cutting, lighting and hauling: beside the electrical rules, answered by every set. */
export interface BuildRules {
  /**
   * Clear space in front of gear that is worked on live. Condition 1: nothing live or earthed opposite; 2: earthed opposite (bare steel
   * counts); 3: live on both sides. Width is never less than the equipment's, height never less than the equipment's top.
   */
  workingSpace(of: {
    readonly voltsToEarthV: number
    readonly condition: 1 | 2 | 3
    readonly equipmentWidthM: number
    readonly equipmentTopM: number
  }): Worked<{ readonly depthM: number; readonly widthM: number; readonly heightM: number }>
  /** Highest centre of a breaker or switch handle above the floor. */
  readonly handleAtMostM: Cited<number>
  /** How far what hangs wholly above gear may stand out before its front. */
  readonly aboveGearOutM: Cited<number>
  /** Least gap behind an enclosure on a damp wall. */
  readonly airGapM: Cited<number>
  /** Greatest distance between supports of a raceway, and from a box or fitting to the first. */
  racewaySupport(of: {
    readonly kind: string
    readonly trade: string
  }): Cited<{ readonly everyM: number; readonly fromBoxM: number }>
  /** Sum of bends between two pulls. */
  readonly bendsBetweenPullsDeg: Cited<number>
  /** Least centre-line radius of a bend of this raceway. */
  bendRadiusM(of: { readonly kind: string; readonly trade: string }): Cited<number>
  /** Light on the face of a panel. */
  readonly panelLux: Cited<number>
  /** May a sensor alone switch the light in the working space? */
  readonly sensorAloneAllowed: Cited<boolean>
  /** Width the door must give and whether it opens out; above which length a second way out is asked for. */
  readonly egress: Cited<{ readonly doorWidthM: number; readonly doorHeightM: number; readonly secondAboveM: number | null }>
  /** What the set says of a cord that leaves through the wall in this way. */
  cordThroughWall(way: ExitWay): Cited<{ readonly allowed: 'yes' | 'no' | 'with written acceptance'; readonly said: string }>
  /** How loads are secured on a vehicle. */
  readonly securing: Cited<{
    readonly method: 'aggregate working load' | 'EN 12195-1'
    readonly forwardG: number
    readonly rearG: number
    readonly sideG: number
    readonly sideTipG: number
    readonly upFrac: number
  }>
  /** Usual limit of height on the road, to be confirmed with the permit office. */
  readonly routeHeightM: Cited<number>
  /** Usual limit of gross mass of the combination and of one axle group; null where no common figure exists. */
  readonly axleGroupKg: Cited<{ readonly single: number; readonly tandem: number }>
  /** Wind and snow standard whose terms the set takes. */
  readonly windBy: 'ASCE 7-16' | 'NBC' | 'EN 1991-1-4'
  readonly snowBy: 'ASCE 7-16' | 'NBC' | 'EN 1991-1-3'
}
