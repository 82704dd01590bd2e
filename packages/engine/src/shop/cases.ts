import { arcMm, gainMm, offsetMultiplier, offsetShrink } from './bends/geometry.ts'
import { FOOT_M } from './figures.ts'
import { paintAreaM2 } from './hours/areas.ts'
import { type LabourItem, labourEach } from './hours/units.ts'
import { nutTorqueNm } from './papers.ts'

/** Keys of the labour case, and the row each counts. */
const ROWS: Readonly<Record<string, LabourItem>> = {
  emt_3_4_ft: 'EMT 3/4',
  wire_12_ft: 'wire 12 AWG',
  wire_6_ft: 'wire 6',
  boxes: '4 in square box',
  duplex: 'duplex receptacle',
  gfci: 'GFCI receptacle',
  one_pole: '1P breaker',
  two_pole: '2P breaker',
  panel42: '42-circuit panelboard, set and feeders',
}

/** Adapters of the published cases about the shop: the case's `given` in, our values under the keys of its `expect` out. */
export const shopCases: Record<string, (given: any) => Record<string, unknown>> = {
  'labour-01': ({ factor, ...counts }) => ({
    hours:
      factor *
      Object.entries(counts).reduce(
        (sum, [key, count]) => sum + Number(count) * (key.endsWith('_ft') ? FOOT_M : 1) * labourEach(ROWS[key]!),
        0,
      ),
  }),
  'paint-01': ({ L_m, W_m, H_m, side_ratio, end_ratio, roof_ratio }) => ({
    area_m2: paintAreaM2({
      lengthM: L_m,
      widthM: W_m,
      heightM: H_m,
      sideRatio: side_ratio,
      endRatio: end_ratio,
      roofRatio: roof_ratio,
    }),
  }),
  'bend-01': ({ angles_deg }) => ({ multipliers: angles_deg.map(offsetMultiplier) }),
  'bend-02': ({ angles_deg }) => ({ shrink_per_inch: angles_deg.map(offsetShrink) }),
  'bend-04': ({ angles_deg }) => ({ shrink_per_inch: angles_deg.map(offsetShrink) }),
  'bend-03': ({ rise_in, angle_deg, to_obstacle_in }) => ({
    first_mark_in: to_obstacle_in + rise_in * offsetShrink(angle_deg),
    second_mark_in: to_obstacle_in + rise_in * offsetShrink(angle_deg) + rise_in * offsetMultiplier(angle_deg),
  }),
  'kick-01': ({ kick_in, angle_deg, radius_in }) => ({
    multiplier: offsetMultiplier(angle_deg),
    to_centre_in: kick_in * offsetMultiplier(angle_deg),
    arc_in: arcMm(radius_in, angle_deg),
    gain_in: gainMm(radius_in, angle_deg),
  }),
  'kick-02': ({ apart_in, angle_deg }) => ({ holes_apart_in: apart_in * offsetMultiplier(angle_deg) }),
  'nut-torque-01': ({ bolts }) => ({ torque_Nm: bolts.map(nutTorqueNm) }),
}
