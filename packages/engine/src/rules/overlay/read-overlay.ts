import type { Result } from '../../kernel/index.ts'
import type { Overlay } from '../rule-set.ts'
import { setTables } from '../set-tables.ts'
import { tables } from '../tables.generated.ts'
import { overlayFrom } from './read.ts'

/** An overlay file of the shop (a local amendment, a utility's rule book), or every problem it has. Format: docs/rules.md. */
export const readOverlay = (text: string): Result<Overlay> => overlayFrom(text, (set) => setTables(set, tables))
