/** A working as words in their edges, for paper and glass alike. Nothing here sets type or touches a machine. */
export type { Inline, Span, SpanKind, WorkingBlock, WorkingRow } from './content.ts'
export { workingBlock } from './working-block.ts'
