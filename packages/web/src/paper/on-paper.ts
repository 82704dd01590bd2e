import { createContext, useContext } from 'react'
import type { PageAnswer } from '../worker/protocol.ts'

/** Lengths on paper: the style sheet says how large a millimetre is. */
export const mm = (lengthMm: number): string => `calc(var(--mm) * ${Math.round(lengthMm * 1000) / 1000})`

/** What blocks want to know of the sheet that they stand on. */
export interface OnSheet {
  readonly check: boolean
  readonly page: Pick<PageAnswer, 'partOf' | 'contents'>
}

const Paper = createContext<OnSheet | null>(null)
export const OnPaper = Paper.Provider

export function usePaper(): OnSheet {
  const paper = useContext(Paper)
  if (paper === null) throw new Error('no paper')
  return paper
}
