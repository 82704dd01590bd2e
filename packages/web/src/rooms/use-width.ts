import { useLayoutEffect, useState } from 'react'

/** Height of the lettering of a room's drawings. */
export const LETTER_PX = 13

/** Width there is for a drawing, measured; a scroll bar that comes and goes moves nothing. */
export function useWidth(frame: React.RefObject<HTMLDivElement | null>): number | null {
  const [width, setWidth] = useState<number | null>(null)
  useLayoutEffect(() => {
    const element = frame.current
    if (element === null) return
    const measure = () =>
      setWidth((had) => (had !== null && Math.abs(had - element.clientWidth) < 20 ? had : element.clientWidth))
    measure()
    const watcher = new ResizeObserver(measure)
    watcher.observe(element)
    return () => watcher.disconnect()
  }, [frame])
  return width
}
