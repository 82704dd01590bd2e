export { adapters } from './adapters.ts'
export { publishedCases } from './cases.generated.ts'
export { runCases } from './run.ts'
export type { Adapter, CaseFile, CheckedCase, CheckedValue, PublishedCase, Scalar, Tolerance } from './types.ts'
