/** Our own mistake: a broken invariant, or a number outside the stated domain of a function. Tests assert the code. */
export class Fault extends Error {
  readonly code: string
  readonly detail: unknown

  constructor(code: string, detail?: unknown) {
    super(`${code}${detail === undefined ? '' : ` ${describe(detail)}`}`)
    this.name = 'Fault'
    this.code = code
    this.detail = detail
  }
}

function describe(detail: unknown): string {
  if (typeof detail === 'string') return detail
  try {
    return JSON.stringify(detail)?.slice(0, 300) ?? String(detail)
  } catch {
    return String(detail)
  }
}
