import { useSyncExternalStore } from 'react'

/** The three ways a page is built. Zoomed in or with large text, a desk becomes a phone. */
export type Anatomy = 'desk' | 'tablet' | 'phone'

const DESK_PX = 1200
const TABLET_PX = 700

export const anatomyOf = (widthPx: number): Anatomy => (widthPx >= DESK_PX ? 'desk' : widthPx >= TABLET_PX ? 'tablet' : 'phone')

export const useAnatomy = (): Anatomy => useSyncExternalStore(subscribe, () => anatomyOf(window.innerWidth))

function subscribe(listener: () => void): () => void {
  window.addEventListener('resize', listener)
  return () => window.removeEventListener('resize', listener)
}
