/** Input that cannot be read. All problems are gathered; none throws. */
export interface Problem {
  readonly code: string
  /** File as the person named it, when there is one. */
  readonly file?: string
  readonly line?: number
  readonly column?: number
  /** Path in the document: `needs.machines[3].cord.length`. */
  readonly path?: string
  readonly found: string
  readonly wanted: string
  readonly mend: string
}

export type Result<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problems: readonly Problem[] }

export const ok = <T>(value: T): Result<T> => ({ ok: true, value })
export const problems = (...all: readonly Problem[]): Result<never> => ({ ok: false, problems: all })
