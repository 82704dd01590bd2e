/** House rules of the layout. Each is common practice; the shop may replace it. */

/** Between any two solids. @source build tolerance of the trade. Provenance: common practice */
export const TOLERANCE_MM = 5
/** Clear bands along floor and ceiling for other trades. @source 300 mm band high and low. Provenance: common practice */
export const HIGHWAY_MM = 300
/** Line of water and pests: nothing electrical below it. The low highway keeps it too. Provenance: common practice */
export const WATER_LINE_MM = 150
/** Room between neighbours: for the hinge of an enclosure with a door; beside a small box for a raceway to the row below. Provenance: common practice */
export const DOOR_GAP_MM = 60
export const BOX_GAP_MM = 90
/** Between a thing or an upright and the edge of an opening: frame and its weld. Provenance: common practice */
export const OPENING_GAP_MM = 80
/** About a hole for a raceway, for its fitting. Common practice */
export const HOLE_GAP_MM = 30
/** With its room, a hole no wider than this lies between two inner flats. */
export const HOLE_MOST_MM = 170
/** Depth and width of the channel. @source strut of 41 × 41 mm. Provenance: read */
export const CHANNEL_MM = 41
/** Uprights apart, in whole pitches. @source 0.4–0.6 m. Provenance: common practice */
export const UPRIGHT_LEAST_MM = 400
export const UPRIGHT_MOST_MM = 600
/** Levels of ladder rails above the floor. House grid. */
export const LEVEL_FIRST_MM = 450
export const LEVEL_STEP_MM = 300
/** An enclosure this high hangs on two rails. */
export const TWO_RAILS_MM = 400
/** Middle of inside receptacles. @source table of mounting heights, 450–1200. Provenance: common practice */
export const RECEPTACLE_LOW_MM = 450
export const RECEPTACLE_HIGH_MM = 1200
/** Middle of the light switch at the door. @source 1000–1200. Provenance: common practice */
export const SWITCH_MM = 1100
/** Handle of the highest breaker below the top of its enclosure. @source worked case of a panel 1500 high. Provenance: common practice */
export const HANDLE_BELOW_TOP_MM = 180
/** Least height of a light's underside. Provenance: common practice */
export const LIGHT_LEAST_MM = 2000
/** Middle of the meter above the underside of the box: 1500–1800 above grade on pads of 50–350 mm. Provenance: common practice */
export const METER_MM = 1450
/** Air around a ventilated transformer. @source usual marking, 150 mm. Provenance: common practice */
export const TRANSFORMER_AIR_MM = 150
/** Share of the grid left free. @source 20 % free grid. Provenance: common practice */
export const FREE_GRID_FRAC = 0.2
/** Sections by their names in table `strut-sections`. */
export const SECTION = '12 ga 1-5/8 x 1-5/8 (41 x 41, 2.6 mm)'
export const SECTION_DOUBLE = '12 ga back to back 1-5/8 x 3-1/4'
export const BEARER_MM = 82
