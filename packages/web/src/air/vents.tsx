import { useState } from 'react'
import { useWords } from '../words/index.ts'
import type { VentView } from '../worker/air/types.ts'

const STEP_MM = 50
const LEAST_MM = 100
const MOST_MM = 600

export const sizeMmOf = (value: string): number | null => {
  const found = /^(\d+) x \d+ mm$/.exec(value)
  return found === null ? null : Number(found[1])
}
export const sizeText = (mm: number): string => `${mm} x ${mm} mm`

const within = (mm: number): number => Math.max(LEAST_MM, Math.min(MOST_MM, Math.round(mm / STEP_MM) * STEP_MM))

/** Squares at the vents of a section: dragged or stepped they ask for vents of another size, drawn in the dashes of what is proposed. */
export function Vents({
  vents,
  value,
  stands,
  take,
}: {
  readonly vents: readonly VentView[]
  /** Words of the size that is shown, and of the one that is planned. */
  readonly value: string
  readonly stands: string
  readonly take: (value: string) => void
}) {
  const words = useWords()
  const [drag, setDrag] = useState<string | null>(null)
  const mm = sizeMmOf(value)
  if (mm === null) return null
  const to = (next: number): void => {
    const size = within(next)
    if (size !== mm) take(size === sizeMmOf(stands) ? stands : sizeText(size))
  }
  const onKeyDown = (event: React.KeyboardEvent): void => {
    const by: Readonly<Record<string, number>> = {
      ...{ ArrowUp: STEP_MM, ArrowRight: STEP_MM, ArrowDown: -STEP_MM, ArrowLeft: -STEP_MM },
      ...{ Home: LEAST_MM - mm, End: MOST_MM - mm },
    }
    const moved = by[event.key]
    if (moved === undefined) return
    event.preventDefault()
    to(mm + moved)
  }
  return vents.map((vent) => {
    const heightPx = (mm / 1000) * vent.pxPerM
    return (
      <div
        key={vent.id}
        role="slider"
        tabIndex={0}
        className={`air-vent${drag === vent.id ? ' dragged' : ''}${value === stands ? '' : ' tried'}`}
        aria-label={words.air.vent(vent.id)}
        aria-orientation="vertical"
        aria-valuemin={LEAST_MM}
        aria-valuemax={MOST_MM}
        aria-valuenow={mm}
        aria-valuetext={value}
        style={{ left: vent.x - 22, top: vent.y - Math.max(22, heightPx / 2), height: Math.max(44, heightPx) }}
        onKeyDown={onKeyDown}
        onPointerDown={(event) => {
          event.preventDefault()
          event.currentTarget.focus()
          event.currentTarget.setPointerCapture(event.pointerId)
          setDrag(vent.id)
        }}
        onPointerMove={(event) => {
          if (!event.currentTarget.hasPointerCapture(event.pointerId)) return
          const box = event.currentTarget.parentElement?.getBoundingClientRect()
          if (box !== undefined) to((2 * Math.abs(event.clientY - box.top - vent.y) * 1000) / vent.pxPerM)
        }}
        onPointerUp={() => setDrag(null)}
        onPointerCancel={() => setDrag(null)}
      >
        <span style={{ height: heightPx }} />
      </div>
    )
  })
}
