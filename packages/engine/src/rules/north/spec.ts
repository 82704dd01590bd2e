import type { Book } from '../common/book.ts'

/** Where `us` and `ca`, which grew from one stem, differ in the table to read or the way to read it. */
export interface North {
  readonly book: Book
  readonly grouping: 'us-grouping' | 'ca-grouping'
  readonly smallConductor: 'us-small-conductor' | 'ca-small-conductor'
  readonly insulation: 'us-insulation' | 'ca-insulation'
  readonly ratings: 'us' | 'ca'
  /** May a cold place raise the ampacity above the 30 C table? */
  readonly coldRaises: boolean
  /**
   * What the conductor as installed, factors and all, must carry of a continuous current: the current itself (us, its 1.25 stands at
   * the terminals only), or the current over the device's 80 % (ca, where the circuit's rating is the lesser of device and conductor).
   */
  readonly conditionsCarry: 'the current' | 'the current over the holding share'
  /** Next size after the motor device's percentage: up (us 430.52(C)(1)) or down (ca Table 29 is a highest value). */
  readonly motorRounds: 'up' | 'down'
}
