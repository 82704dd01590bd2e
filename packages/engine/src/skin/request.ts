import type { BoxBody } from '../box/index.ts'
import type { BoxDesign, Circuit, Pin, VentWanted } from '../job/index.ts'
import type { BuildRules } from '../rules/index.ts'

export interface SkinRequest {
  readonly body: BoxBody
  /** Electrical design of this box, of every phase. */
  readonly designs: readonly BoxDesign[]
  readonly rules: BuildRules
  readonly pins: readonly Pin[]
  /** Vents and fans that air asks for. */
  readonly vents: readonly VentWanted[]
  /** It is foamed inside after the cuts. */
  readonly foam: boolean
  /** Deepest snow on the ground; null: nobody said. */
  readonly snowDepthM: number | null
  /** Outside diameter of a raceway by kind and trade. */
  readonly racewayMm: (kind: string, trade: string) => number
  /** Size of the body of a circuit's outlet. */
  readonly outletMm: (circuit: Circuit) => Body
}

export interface Body {
  readonly widthMm: number
  readonly heightMm: number
}
