export interface TestCount {
  readonly passed: number
  readonly failed: number
  readonly failures: readonly { readonly name: string; readonly message: string }[]
  readonly skipped: readonly string[]
}
export function countStories(
  output: string,
): { readonly passed: number; readonly failed: number; readonly failures: readonly string[] } | null
export function countTests(report: unknown, root: string): TestCount
