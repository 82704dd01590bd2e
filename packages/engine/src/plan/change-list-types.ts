import type { BuiltBody, BuiltBox, Design, Pin } from '../job/index.ts'
import type { MaterialMoney } from '../parts/index.ts'
import type { ChangeHours } from './change-hours.ts'

export type ChangeAction = 'keep' | 'add' | 'replace' | 'take out' | 'test or measure' | 'relabel'

/** One thing of a box that stands, and what becomes of it. */
export interface ChangeLine {
  /** Tags of the components: `main`, `C-EP1, C-EP2`. */
  readonly tag: string
  readonly component: string
  readonly asBuilt: string
  readonly needed: string
  /** The rule or the physics, in words. */
  readonly why: string
  /** Findings that ask for it, on the box as it stands. */
  readonly codes: readonly string[]
  readonly action: ChangeAction
  readonly quantity: number
  /** `each`, or `set` where the parts differ. */
  readonly per: 'each' | 'set'
  /** Material by the price table; null: nothing is bought, or it is not known before somebody looked. */
  readonly material: MaterialMoney | null
  /** Nobody knows yet what it costs: the sum is a floor. */
  readonly priceUnknown: boolean
  /** What the line does to the box; empty: it changes nothing that is judged. */
  readonly keys: readonly string[]
  /** What fails, by `assess`, when this line alone is left out; of its air, what is no longer known to hold too. */
  readonly without: readonly string[]
  /** True when something fails without it. */
  readonly must: boolean
}

/** What must be changed on one box that stands, so that nothing fails in the new place. */
export interface ChangeList {
  readonly box: string
  readonly lines: readonly ChangeLine[]
  /** Material of all lines, without labour. */
  readonly money: number
  /** Something has no price: `money` is at least this. */
  readonly moneyIsFloor: boolean
  /** What has no price or no hours, by name. */
  readonly lacking: readonly string[]
  /** For all lines, those of every trade counted as an electrician’s. */
  readonly hours: ChangeHours
  /** Material of the same box built fresh, without labour. */
  readonly freshMoney: number
  readonly freshIsFloor: boolean
  readonly currency: string
  /** Box and design once every line is done; `assess` judged exactly these. */
  readonly builtAfter: BuiltBox
  readonly bodyAfter: BuiltBody | null
  readonly designAfter: Design
  /** Choices of its air that the lines make, as pins of the job; `assess` judged these too. */
  readonly pinsAfter: readonly Pin[]
  /** Codes and subjects that still fail then; empty: nothing does. */
  readonly stillFails: readonly string[]
  /** Findings on the box that stay unknown when every line is done: never OK. */
  readonly staysUnknown: readonly string[]
  readonly tried: number
}

/** Stand wherever a list is shown. */
export const CHANGE_CAUTIONS: readonly string[] = [
  'Before any cover comes off: isolate every source, lock, prove dead, earth where it may be charged.',
  'A licensed person decides what is done and does it; the authority having jurisdiction decides whether the box may be used. Nothing is switched on before the full test.',
]
