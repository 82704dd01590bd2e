import { useWords } from '../words/index.ts'
import type { AirHourView } from '../worker/air/types.ts'
import { Picture } from './picture.tsx'

/** The chosen days, drawn large; an hour of them is chosen by touch or keys. */
export function Days({
  view,
  atH,
  choose,
}: {
  readonly view: AirHourView
  /** Hour of these days. */
  readonly atH: number
  readonly choose: (atH: number) => void
}) {
  const words = useWords()
  const { plot, hoursCount } = view
  const onKeyDown = (event: React.KeyboardEvent): void => {
    const by: Readonly<Record<string, number>> = {
      ...{ ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1, PageDown: -24, PageUp: 24 },
      ...{ Home: -atH, End: hoursCount - 1 - atH },
    }
    const moved = by[event.key]
    if (moved === undefined) return
    event.preventDefault()
    choose(atH + moved)
  }
  const at = (event: React.MouseEvent<HTMLElement>): void => {
    const box = event.currentTarget.getBoundingClientRect()
    const frac = (event.clientX - box.left) / Math.max(1, box.width)
    choose(Math.max(0, Math.min(hoursCount - 1, Math.floor(frac * hoursCount))))
  }
  return (
    <Picture
      view={view.days}
      wide={words.air.days(view.title)}
      over={
        plot === null ? null : (
          <div
            role="slider"
            tabIndex={0}
            className="air-plot"
            aria-label={words.air.hourLabel}
            aria-valuemin={0}
            aria-valuemax={hoursCount - 1}
            aria-valuenow={atH}
            aria-valuetext={view.when}
            style={{ left: plot.left, top: plot.top, width: plot.right - plot.left, height: plot.bottom - plot.top }}
            onKeyDown={onKeyDown}
            onClick={at}
            onPointerDown={(event) => {
              // A finger moves the sheet: it chooses by a tap. A mouse chooses as it is drawn along.
              if (event.pointerType === 'mouse') event.currentTarget.setPointerCapture(event.pointerId)
            }}
            onPointerMove={(event) => {
              if (event.currentTarget.hasPointerCapture(event.pointerId)) at(event)
            }}
          />
        )
      }
    />
  )
}
