import type { Side } from '@plugstead/engine/job'
import { useCallback, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react'
import { useAsked } from '../ask.ts'
import { useJob } from '../bench.ts'
import { useAnatomy } from '../hands/anatomy.ts'
import { usePreferences } from '../hands/preferences.ts'
import type { JobRoute } from '../route.ts'
import { fold, goTo, turnTo } from '../where.ts'
import { useWords } from '../words/index.ts'
import type { BoxAnswer, GlassView, ThingLine } from '../worker/protocol.ts'
import { Find } from './find.tsx'
import { Hatches } from './hatches.tsx'
import { nearestThatWay, touched, type Way } from './nearest.ts'
import { thingWords } from './place-words.ts'
import { Scene } from './scene.tsx'

type SixSides = Extract<JobRoute, { page: 'six sides' }>

const ARROWS: Readonly<Record<string, Way>> = { ArrowLeft: 'left', ArrowRight: 'right', ArrowUp: 'up', ArrowDown: 'down' }
/** A side on a phone is drawn so large that its letters stand apart, and slides under the finger. */
const PHONE_LEAST_PX = 920
const REACH_PX = { glove: 46, touch: 22, mouse: 9 } as const

/** The box: all six sides as a net, or one of them unfolded. The drawing, and over it a real list of buttons. */
export function BoxSheet({ route, answer }: { readonly route: SixSides; readonly answer: BoxAnswer }) {
  const { now } = useJob()
  const words = useWords()
  const { units, gloves, letterKeys } = usePreferences()
  const phone = useAnatomy() === 'phone'
  const frame = useRef<HTMLDivElement>(null)
  const room = useRoom(frame)
  const side = route.side ?? null
  const view = useAsked(
    'sheet',
    room === null
      ? null
      : {
          box: answer.box,
          side: phone ? (side ?? 'left') : side,
          ...room,
          widthPx: phone ? Math.max(room.widthPx, PHONE_LEAST_PX) : room.widthPx,
          letterPx: 13,
        },
  )
  const [finding, setFinding] = useState(false)
  const lines = useMemo(() => new Map(answer.things.map((line) => [line.id, line])), [answer])
  const chosen = route.thing?.box === answer.box ? route.thing.id : null

  const choose = useCallback(
    (id: string) => {
      const line = lines.get(id)
      if (line === undefined) return
      // Chosen again: it unfolds to the side it hangs on.
      if (id === chosen) {
        if (route.side === undefined) goTo({ ...route, box: answer.box, side: line.side })
        return
      }
      const seen = route.side === undefined || route.side === line.side
      turnTo({ ...route, thing: { box: answer.box, id }, ...(seen ? {} : { box: answer.box, side: line.side }) })
    },
    [answer.box, chosen, lines, route],
  )

  useFocusOn(frame, chosen, view)

  const onKeyDown = (event: React.KeyboardEvent) => {
    const { key } = event
    if (event.target instanceof HTMLInputElement) return
    const way = ARROWS[key]
    const from = view?.things.find((t) => t.id === chosen)
    if (way !== undefined && view) {
      event.preventDefault()
      const next = from === undefined ? view.things[0] : nearestThatWay(view.things, from, way)
      if (next) choose(next.id)
    } else if (key === 'Escape') fold()
    else if (!letterKeys || event.ctrlKey || event.metaKey) return
    else if (key === '/') {
      event.preventDefault()
      setFinding(true)
    } else if (key === '[' || key === ']') {
      const next = notHolding(answer.things, chosen, key === ']' ? 1 : -1)
      if (next !== null) choose(next.id)
    }
  }

  const onClick = (event: React.MouseEvent) => {
    if (!view || event.detail === 0) return
    const place = frame.current?.querySelector('svg')?.getBoundingClientRect()
    if (place === undefined) return
    const [x, y] = [event.clientX - place.left, event.clientY - place.top]
    const fine = window.matchMedia('(pointer: fine)').matches
    const hit = touched(view.things, x, y, gloves ? REACH_PX.glove : fine ? REACH_PX.mouse : REACH_PX.touch)
    if (hit !== null) return choose(hit.id)
    const on = view.sides.find((s) => x >= s.x && x <= s.x + s.w && y >= s.y && y <= s.y + s.h)
    if (on !== undefined && route.side === undefined && !phone) goTo({ ...route, box: answer.box, side: on.side })
  }

  const counts = (verdict: ThingLine['verdict']): number => answer.things.filter((t) => t.verdict === verdict).length
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: touches between the buttons mean the nearest of them; keys act on the buttons inside
    <div ref={frame} className={now.stale ? 'box-sheet stale' : 'box-sheet'} onKeyDown={onKeyDown} onClick={onClick}>
      {view ? (
        <div className="drawing" style={{ width: view.widthPx, height: view.heightPx }}>
          <svg
            width={view.widthPx}
            height={view.heightPx}
            role="img"
            aria-label={`${view.said} ${words.sheet.counts(answer.things.length, counts('fails'), counts('tight'), counts('unknown'))}`}
          >
            <Hatches />
            <Scene view={view} chosen={chosen} />
          </svg>
          <Things view={view} lines={lines} chosen={chosen} choose={choose} words={(line) => thingWords(line, words, units)} />
        </div>
      ) : (
        <p className="quiet">{words.states.reading}</p>
      )}
      {finding ? <Find things={answer.things} choose={choose} done={() => setFinding(false)} /> : null}
    </div>
  )
}

/** The drawing in words: side by side, a button for each thing, where it is drawn. */
function Things({
  view,
  lines,
  chosen,
  choose,
  words: said,
}: {
  readonly view: GlassView
  readonly lines: ReadonlyMap<string, ThingLine>
  readonly chosen: string | null
  readonly choose: (id: string) => void
  readonly words: (line: ThingLine) => string
}) {
  const words = useWords()
  const first = view.things.some((t) => t.id === chosen) ? chosen : view.things[0]?.id
  const sides = [...new Set(view.things.map((t) => t.side))]
  return (
    <ul className="things" aria-label={words.sheet.things}>
      {sides.map((side: Side) => (
        <li key={side}>
          <ul aria-label={words.sides[side]}>
            {[...lines.values()]
              .filter((line) => line.side === side)
              .map((line) => {
                const place = view.things.find((t) => t.id === line.id)
                if (place === undefined) return null
                return (
                  <li key={line.id}>
                    <button
                      type="button"
                      data-choose={line.id}
                      aria-label={said(line)}
                      aria-pressed={line.id === chosen}
                      tabIndex={line.id === first ? 0 : -1}
                      style={{ left: place.x, top: place.y, width: Math.max(place.w, 4), height: Math.max(place.h, 4) }}
                      onClick={(event) => {
                        // A pointer's click is answered by the sheet, which knows what is nearest; this is for keys and for helpers of the blind.
                        if (event.detail !== 0) return
                        event.stopPropagation()
                        choose(line.id)
                      }}
                    />
                  </li>
                )
              })}
          </ul>
        </li>
      ))}
    </ul>
  )
}

function notHolding(things: readonly ThingLine[], from: string | null, step: 1 | -1): ThingLine | null {
  const open = things.filter((t) => t.verdict !== null && t.verdict !== 'holds')
  if (open.length === 0) return null
  const at = open.findIndex((t) => t.id === from)
  return open[at < 0 ? (step === 1 ? 0 : open.length - 1) : (at + step + open.length) % open.length] ?? null
}

/** Room for the drawing, measured. */
function useRoom(frame: React.RefObject<HTMLDivElement | null>): { readonly widthPx: number; readonly heightPx: number } | null {
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
function useFocusOn(
  frame: React.RefObject<HTMLDivElement | null>,
  chosen: string | null,
  view: GlassView | null | undefined,
): void {
  const drawn = view !== undefined && view !== null
  useEffect(() => {
    if (!drawn || chosen === null || !frame.current?.contains(document.activeElement)) return
    frame.current.querySelector<HTMLElement>(`[data-choose="${CSS.escape(chosen)}"]`)?.focus()
  }, [frame, chosen, drawn])
}
