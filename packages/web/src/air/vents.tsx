import { useRef, useState } from 'react'
import { usePreferences } from '../hands/preferences.ts'
import { shownTo } from '../hands/units.ts'
import { useWords } from '../words/index.ts'
import type { VentView } from '../worker/air/types.ts'
import {
  type Place,
  type Places,
  placesText,
  rangeMm,
  SIZE_MM,
  sizeMmOf,
  sizeText,
  snapped,
  stepMm,
  stepped,
} from './vent-pins.ts'

/** What of the vents is shown, as pins; and how other ones are asked for. */
export interface VentTrial {
  readonly vents: readonly VentView[]
  readonly places: Places
  /** Words of the size that is shown. */
  readonly size: string
  readonly triedPlaces: boolean
  readonly triedSize: boolean
  readonly takePlaces: (value: string) => void
  readonly takeSize: (value: string) => void
}

interface Moved extends Place {
  readonly vent: VentView
  readonly heightMm: number
}

/** Every vent where it is wanted now, and what moves it or changes its size. */
function useVents(trial: VentTrial) {
  const { units } = usePreferences()
  const step = stepMm(units)
  const sizeMm = sizeMmOf(trial.size)
  const all = trial.vents.map((vent): Moved => {
    const place = trial.places[vent.low ? 'low' : 'high'] ?? vent
    // The hole of a fan keeps its own size until the size of all is changed.
    const heightMm = sizeMm !== null && (trial.triedSize || vent.id !== 'fan') ? sizeMm : vent.heightMm
    return { vent, side: place.side, upMm: place.upMm, heightMm }
  })
  const place = (own: Moved, to: Partial<Place>): void => {
    const next = all.map((one) => ({ low: one.vent.low, side: one.side, upMm: one.upMm, ...(one.vent === own.vent ? to : {}) }))
    trial.takePlaces(placesText(next, units))
  }
  const lift = (own: Moved, upMm: number, by = step): void => {
    const to = snapped(upMm, by, rangeMm(own.vent, own.heightMm))
    if (Math.abs(to - own.upMm) > 0.5) place(own, { upMm: to })
  }
  const size = (mm: number): void => {
    const to = snapped(mm, step, { least: SIZE_MM.least, most: SIZE_MM.most })
    if (sizeMm !== null && Math.abs(to - sizeMm) > 0.5) trial.takeSize(sizeText(to, units))
  }
  return { all, step, units, sizeMm, lift, size, turn: (own: Moved, side: Place['side']): void => place(own, { side }) }
}

const FINE_MM = 10
const FINE_IN_MM = 12.7
const PAGE_STEPS = 5

/** What lies over the vents of a section: each is dragged up and down its wall, and by the bar under it made larger or smaller. */
export function Vents({ trial }: { readonly trial: VentTrial }) {
  const words = useWords()
  const { gloves } = usePreferences()
  const { all, step, units, sizeMm, lift, size } = useVents(trial)
  const [drag, setDrag] = useState<string | null>(null)
  const from = useRef({ y: 0, mm: 0 })
  const begin = (event: React.PointerEvent<HTMLElement>, what: string, mm: number): void => {
    event.preventDefault()
    event.currentTarget.focus()
    if (gloves) return
    event.currentTarget.setPointerCapture(event.pointerId)
    from.current = { y: event.clientY, mm }
    setDrag(what)
  }
  const draggedMm = (event: React.PointerEvent<HTMLElement>, pxPerM: number): number | null =>
    event.currentTarget.hasPointerCapture(event.pointerId) ? ((event.clientY - from.current.y) * 1000) / pxPerM : null
  const end = { onPointerUp: () => setDrag(null), onPointerCancel: () => setDrag(null) }
  const length = (mm: number): string => shownTo(units === 'us' ? 1 : 0, mm, 'mm', units)
  return all.flatMap((own) => {
    const { vent, heightMm, upMm } = own
    const { at } = vent
    if (at === null) return []
    const range = rangeMm(vent, heightMm)
    const y = at.y - ((upMm - vent.upMm) / 1000) * at.pxPerM
    const heightPx = (heightMm / 1000) * at.pxPerM
    const reachPx = Math.max(22, heightPx / 2)
    const heightKeys = (event: React.KeyboardEvent): void => {
      const fine = units === 'us' ? FINE_IN_MM : FINE_MM
      const by = event.shiftKey ? fine : step
      const to: Readonly<Record<string, number>> = {
        ...{ ArrowUp: stepped(upMm, 1, by), ArrowDown: stepped(upMm, -1, by) },
        ...{ PageUp: stepped(upMm, PAGE_STEPS, step), PageDown: stepped(upMm, -PAGE_STEPS, step) },
        ...{ Home: range.least, End: range.most },
      }
      const next = to[event.key]
      if (next === undefined) return
      event.preventDefault()
      lift(own, next, by)
    }
    const sizeKeys = (event: React.KeyboardEvent): void => {
      if (sizeMm === null) return
      const to: Readonly<Record<string, number>> = {
        ...{ ArrowUp: stepped(sizeMm, 1, step), ArrowRight: stepped(sizeMm, 1, step) },
        ...{ ArrowDown: stepped(sizeMm, -1, step), ArrowLeft: stepped(sizeMm, -1, step) },
        ...{ Home: SIZE_MM.least, End: SIZE_MM.most },
      }
      const next = to[event.key]
      if (next === undefined) return
      event.preventDefault()
      size(next)
    }
    const tried = trial.triedPlaces || trial.triedSize
    return [
      <div
        key={vent.id}
        role="slider"
        tabIndex={0}
        className={`air-vent${drag === vent.id ? ' dragged' : ''}${tried ? ' tried' : ''}`}
        aria-label={words.air.ventHeight(vent.id)}
        aria-orientation="vertical"
        aria-valuemin={Math.round(range.least)}
        aria-valuemax={Math.round(range.most)}
        aria-valuenow={Math.round(upMm)}
        aria-valuetext={words.air.ventUp(length(upMm))}
        style={{ left: at.x - 22, top: y - reachPx, height: 2 * reachPx }}
        onKeyDown={heightKeys}
        onPointerDown={(event) => begin(event, vent.id, upMm)}
        onPointerMove={(event) => {
          const mm = draggedMm(event, at.pxPerM)
          if (mm !== null) lift(own, from.current.mm - mm)
        }}
        {...end}
      >
        <span style={{ height: heightPx }} />
      </div>,
      ...(sizeMm === null
        ? []
        : [
            <div
              key={`${vent.id} size`}
              role="slider"
              tabIndex={0}
              className={`air-vent air-vent-size${drag === `${vent.id} size` ? ' dragged' : ''}`}
              aria-label={words.air.vent(vent.id)}
              aria-orientation="vertical"
              aria-valuemin={SIZE_MM.least}
              aria-valuemax={SIZE_MM.most}
              aria-valuenow={Math.round(sizeMm)}
              aria-valuetext={length(sizeMm)}
              style={{ left: at.x - 22, top: y + reachPx, height: 32 }}
              onKeyDown={sizeKeys}
              onPointerDown={(event) => begin(event, `${vent.id} size`, sizeMm)}
              onPointerMove={(event) => {
                const mm = draggedMm(event, at.pxPerM)
                // Its middle stays: an edge that moves by one makes it larger by two.
                if (mm !== null) size(from.current.mm + 2 * mm)
              }}
              {...end}
            >
              <span />
            </div>,
          ]),
    ]
  })
}

/** The same in words: for gloves, and for whoever does not drag. */
export function VentActs({ trial }: { readonly trial: VentTrial }) {
  const words = useWords()
  const { all, step, units, sizeMm, lift, size, turn } = useVents(trial)
  if (all.length === 0) return null
  const length = (mm: number): string => shownTo(units === 'us' ? 1 : 0, mm, 'mm', units)
  return (
    <ul className="air-vent-acts" aria-label={words.air.ventActs}>
      {all.map((own) => {
        const { vent, heightMm, upMm, side } = own
        const range = rangeMm(vent, heightMm)
        const other = side === 'left' ? 'right' : 'left'
        return (
          <li key={vent.id}>
            <span>{words.air.ventStands(vent.id, words.air.walls[side], length(upMm))}</span>
            <span className="mend-acts">
              <Act
                said={words.air.higher}
                of={vent.id}
                off={upMm > range.most - 0.5}
                go={() => lift(own, stepped(upMm, 1, step))}
              />
              <Act
                said={words.air.lower}
                of={vent.id}
                off={upMm < range.least + 0.5}
                go={() => lift(own, stepped(upMm, -1, step))}
              />
              <Act said={words.air.toWall(words.air.walls[other])} of={vent.id} off={false} go={() => turn(own, other)} />
            </span>
          </li>
        )
      })}
      {sizeMm === null ? null : (
        <li>
          <span>{words.air.ventSizes(length(sizeMm))}</span>
          <span className="mend-acts">
            <Act said={words.air.larger} of="" off={sizeMm >= SIZE_MM.most} go={() => size(stepped(sizeMm, 1, step))} />
            <Act said={words.air.smaller} of="" off={sizeMm <= SIZE_MM.least} go={() => size(stepped(sizeMm, -1, step))} />
          </span>
        </li>
      )}
    </ul>
  )
}

function Act({
  said,
  of,
  off,
  go,
}: {
  readonly said: string
  readonly of: string
  readonly off: boolean
  readonly go: () => void
}) {
  return (
    <button type="button" className="plate" disabled={off} onClick={go} aria-label={of === '' ? undefined : `${of}: ${said}`}>
      {said}
    </button>
  )
}
