import type { Assessment } from '@plugstead/engine/assess'
import type { QuestionId } from '@plugstead/engine/kernel'
import type { ComponentType } from 'react'

/** What a room's picture is given: the figures its question answered, and how to choose a thing or unfold a working. */
export interface PictureProps<Q extends keyof Assessment['results'] = keyof Assessment['results']> {
  readonly results: Assessment['results'][Q]
  readonly chosen: { readonly box: string; readonly id: string } | null
  readonly choose: (box: string, thing: string) => void
  readonly unfold: (working: string) => void
}

/**
 * The picture of each question's room. One line a room: the file is loaded when its room is opened first.
 * `reach: lazy(() => import('./reach/picture.tsx'))`
 */
export const pictures: { readonly [Q in keyof Assessment['results']]?: ComponentType<PictureProps<Q>> } = {}

/** Questions that have figures. A record, so that the compiler finds the one that is new. */
const FIGURES: Readonly<Record<keyof Assessment['results'], true>> = {
  needs: true,
  supply: true,
  dates: true,
  circuits: true,
  reach: true,
  faults: true,
  fit: true,
  skin: true,
  haul: true,
  shop: true,
  money: true,
}

export const hasResults = (id: QuestionId): id is keyof Assessment['results'] & QuestionId => Object.hasOwn(FIGURES, id)
