import type { Finding, Working } from '../kernel/index.ts'

/** What a question returns: findings, the workings they name, and the figures other questions and the book read. */
export interface Answer<R> {
  readonly findings: readonly Finding[]
  readonly workings: readonly Working[]
  readonly result: R
}
