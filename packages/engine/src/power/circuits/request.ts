import type {
  BoxDesign,
  BoxWanted,
  Circuit,
  Electrode,
  Job,
  Offer,
  OwnTransformer,
  Panel,
  Shock,
  SizeName,
  Span,
  Staging,
  SystemId,
} from '../../job/index.ts'
import type { Step } from '../../kernel/index.ts'
import type { Prices } from '../../parts/index.ts'
import type { RuleSet } from '../../rules/index.ts'
import type { Bunch } from './beside.ts'

/** What plan asks with. Everything that is not told here is a house default, and comes back in `warnings` as assumed. */
export interface CircuitsRequest {
  readonly job: Job
  readonly box: BoxWanted
  /** Id of the phase. */
  readonly phase: string
  readonly rules: RuleSet
  readonly prices: Prices
  /** System at the panel. */
  readonly system: SystemId
  readonly offer: Offer
  readonly serviceA: number
  /** Least interrupting rating that the fault level at the panel asks for. */
  readonly interruptingKA: number
  /** Starts may be set again after the legs are known: only the balance rests on them. */
  readonly staging: Staging
  /** Inside temperature; conductors are sized at its hot end. Absent: as the box says. */
  readonly insideC?: Span
  /** Sizes only grow: what earlier rounds asked for. */
  readonly grown?: Grown
  readonly transfer?: BoxDesign['transfer']
  readonly earthing?: BoxDesign['earthing']
  /** Own transformer that stands in the box, without its devices and run: those are chosen here. */
  readonly transformer?: Omit<OwnTransformer, 'primary' | 'primaryRun'> | null
  /** Boxes that this one feeds, in the same phase: each gets a feeder circuit. */
  readonly feeds?: readonly {
    readonly box: string
    readonly lengthM: number
    readonly needA: number
    readonly connection: Circuit['connection']
  }[]
}

export interface Grown {
  /** Circuit id to least line size; `feed` is the feed of the panel. */
  readonly lines?: Readonly<Record<string, SizeName>>
  /** Plug tag to least cord size. */
  readonly cords?: Readonly<Record<string, SizeName>>
  /** Circuit id to device family: a lower magnetic band where the loop asks for it. */
  readonly families?: Readonly<Record<string, string>>
  /** Circuit id to shock protection where a slow device asks for a residual one. */
  readonly shock?: Readonly<Record<string, Shock>>
  /** Circuit id to device rating: a motor that must start. */
  readonly devices?: Readonly<Record<string, number>>
  /** Circuit id to the name of the raceway it shares with others where the walls are full; absent: one of its own. */
  readonly together?: Readonly<Record<string, string>>
  /** Circuit id to what lies together with it in a raceway longer than a nipple, or in a wireway: their number counts. */
  readonly beside?: Readonly<Record<string, readonly Bunch[]>>
  /** Metres of each circuit's run in the box as the layout leads it; absent: the house default. */
  readonly runsM?: Readonly<Record<string, number>>
}

export interface CircuitsDesign {
  readonly panel: Panel
  readonly circuits: readonly Circuit[]
  readonly electrode: Electrode
  readonly transformer: OwnTransformer | null
  readonly fedFrom: BoxDesign['fedFrom']
  /** What was taken by default, and what could not be chosen; plain sentences with the path that would replace them. */
  readonly warnings: readonly { readonly path: string; readonly said: string }[]
  readonly steps: readonly Step[]
  readonly balance: { readonly peakA: number; readonly boundA: number; readonly proven: boolean; readonly triedCount: number }
}

/**
 * Hottest inside air that conductors are sized for where nobody told it. An unventilated box may pass it: then vents, fan or shade must
 * keep it below, and the judgement says so once. House rule, at the end of what breakers and terminals are made for.
 */
export const MOST_INSIDE_C = 60
