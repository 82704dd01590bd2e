import { createContext, useContext } from 'react'
import type { PageAnswer } from '../worker/protocol.ts'

/** Lengths on paper: the style sheet says how large a millimetre is. */
export const mm = (lengthMm: number): string => `calc(var(--mm) * ${Math.round(lengthMm * 1000) / 1000})`

const Paper = createContext<{ readonly check: boolean; readonly page: PageAnswer } | null>(null)
export const OnPaper = Paper.Provider

export function usePaper(): { readonly check: boolean; readonly page: PageAnswer } {
  const paper = useContext(Paper)
  if (paper === null) throw new Error('no paper')
  return paper
}
