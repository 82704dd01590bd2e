import { useEffect, useLayoutEffect, useState } from 'react'
import type { GlassView } from '../worker/protocol.ts'

/** Room for the drawing, measured. */
export function useRoom(
  frame: React.RefObject<HTMLElement | null>,
): { readonly widthPx: number; readonly heightPx: number } | null {
  const [room, setRoom] = useState<{ readonly widthPx: number; readonly heightPx: number } | null>(null)
  useLayoutEffect(() => {
    const element = frame.current
    if (element === null) return
    const measure = () => {
      const { clientWidth, clientHeight } = element
      const next = { widthPx: Math.max(200, clientWidth - 8), heightPx: Math.max(160, clientHeight - 8) }
      setRoom((had) => (had !== null && had.widthPx === next.widthPx && had.heightPx === next.heightPx ? had : next))
    }
    measure()
    const watcher = new ResizeObserver(measure)
    watcher.observe(element)
    return () => watcher.disconnect()
  }, [frame])
  return room
}

/** Keys stay on the chosen thing when another is chosen by keys. */
export function useFocusOn(
  frame: React.RefObject<HTMLDivElement | null>,
  chosen: string | null,
  view: GlassView | null | undefined,
): void {
  const drawn = view !== undefined && view !== null
  useEffect(() => {
    const active = document.activeElement
    if (!drawn || chosen === null || !frame.current?.contains(active)) return
    // A machine that was chosen keeps them: its outlet is what hangs the tag.
    if (active instanceof HTMLElement && active.dataset.choose?.startsWith('machine ')) return
    frame.current.querySelector<HTMLElement>(`[data-choose="${CSS.escape(chosen)}"]`)?.focus()
  }, [frame, chosen, drawn])
}
