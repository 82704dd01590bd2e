import { tables } from './tables.generated.ts'

/** A square tube that frames are made of, sharp corners. */
export interface Tube {
  readonly section: string
  readonly bMm: number
  readonly tMm: number
}

/** From the smallest to the largest. @source table `frame-sections`. Provenance: common practice */
export const TUBES: readonly Tube[] = tables['frame-sections'].rows.map(([section, bMm, tMm]) => ({ section, bMm, tMm }))
