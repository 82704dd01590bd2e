import type { DocumentEdit } from '@plugstead/engine/job'

/** Writes a pin into the document. */
export const pinEdit = (path: string, value: string | number | boolean, by: string, why: string): DocumentEdit => ({
  path: ['choices', path],
  value: { value, by, why },
})
