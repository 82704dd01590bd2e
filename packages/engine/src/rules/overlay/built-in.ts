import { overlays } from '../overlays.generated.ts'
import type { Overlay } from '../rule-set.ts'

/** Countries that come with the program, by the name a job gives under `rules.overlays`. */
export const builtInOverlays: Readonly<Record<string, Overlay>> = overlays
