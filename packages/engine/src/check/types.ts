/** How near is near enough, and why. A number passes when it is within either; without both it must agree to the last bit kept. */
export interface Near {
  readonly relative?: number
  readonly absolute?: number
  /** Two numbers of theirs are the ends of a range that one of ours lies in; `relative` is then of the middle, as grace outside. */
  readonly range?: boolean
  readonly why: string
}

export interface Tolerance extends Near {
  /** For single values, by their key in `expect`. */
  readonly values?: Readonly<Record<string, Near>>
}

/** A worked example, handbook row or test feeder that was published, with what it gives and what it expects. */
export interface PublishedCase {
  readonly id: string
  readonly topic: string
  readonly given: Readonly<Record<string, unknown>>
  readonly expect: Readonly<Record<string, unknown>>
  readonly tolerance: Tolerance
  readonly source: string
  readonly address?: string
  readonly provenance: string
  readonly note?: string
}

/** Text of a file of data that a case names; throws where it is not at hand. */
export type CaseFile = (name: string) => string

/** Works out our values for one case, under the same keys as its `expect`. */
export type Adapter = (given: never, file: CaseFile) => Readonly<Record<string, unknown>>

export type Scalar = number | string | boolean | null

export interface CheckedValue {
  /** `V4_V[2]`. */
  readonly name: string
  /** Absent: we gave no such value. */
  readonly ours?: Scalar
  readonly theirs: Scalar
  readonly ok: boolean
  /** Largest difference allowed, in the value's own unit; null where it must be the same. */
  readonly tolerance: number | null
  readonly why: string
}

export interface CheckedCase {
  readonly id: string
  readonly topic: string
  readonly ok: boolean
  readonly source: string
  readonly address?: string
  readonly provenance: string
  readonly note?: string
  /** Why it cannot be met at all: no adapter, or the engine refused. */
  readonly reason?: string
  readonly values: readonly CheckedValue[]
}
