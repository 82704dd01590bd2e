import { memo, useId, useMemo, useRef } from 'react'
import { reachPx } from '../hands/glass.ts'
import { usePreferences } from '../hands/preferences.ts'
import { Hatches } from '../six-sides/hatches.tsx'
import { nearestThatWay, touched, type Way } from '../six-sides/nearest.ts'
import { useProposed } from '../six-sides/proposed.ts'
import { Scene } from '../six-sides/scene.tsx'
import { useWords } from '../words/index.ts'
import type { RoomDrawing } from '../worker/protocol.ts'
import type { Ways } from './room.tsx'

type Place = RoomDrawing['places'][number]

const ARROWS: Readonly<Record<string, Way>> = { ArrowLeft: 'left', ArrowRight: 'right', ArrowUp: 'up', ArrowDown: 'down' }

/** A picture of a room, and over it a real list of buttons: a thing hangs its tag, a number unfolds its derivation. */
export const Drawing = memo(function Drawing({ view, ways }: { readonly view: RoomDrawing; readonly ways: Ways }) {
  const { gloves } = usePreferences()
  const words = useWords()
  const frame = useRef<HTMLDivElement>(null)
  const name = useId()
  const { places } = view
  const proposed = useProposed()
  const dyed = useMemo(() => new Set(ways.chosen === null ? [] : [ways.chosen]), [ways.chosen])
  const chosen = places.some((p) => p.id === ways.chosen) ? ways.chosen : null
  const go = (place: Place): void => {
    if (place.thing !== undefined) ways.choose(place.thing)
    else if (place.working !== undefined) ways.unfold(place.working)
  }
  const onClick = (event: React.MouseEvent): void => {
    if (event.detail === 0) return
    const at = frame.current?.querySelector('svg')?.getBoundingClientRect()
    if (at === undefined) return
    const hit = touched(places, event.clientX - at.left, event.clientY - at.top, reachPx(gloves))
    if (hit !== null) go(hit)
  }
  const onKeyDown = (event: React.KeyboardEvent): void => {
    const way = ARROWS[event.key]
    const from = places.find((p) => p.id === (document.activeElement as HTMLElement | null)?.dataset.place)
    if (way === undefined || from === undefined) return
    event.preventDefault()
    const next = nearestThatWay(places, from, way)
    if (next) frame.current?.querySelector<HTMLElement>(`[data-place="${CSS.escape(next.id)}"]`)?.focus()
  }
  // Where nothing in it can be touched, keys still move it.
  const scrolled = { tabIndex: 0, role: 'group', 'aria-label': words.room.picture }
  const first = chosen ?? places[0]?.id
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: touches between the buttons mean the nearest of them; keys act on the buttons inside
    <div ref={frame} className="picture" onClick={onClick} onKeyDown={onKeyDown} {...(places.length === 0 ? scrolled : {})}>
      <div className="drawing" style={{ width: view.widthPx, height: view.heightPx }}>
        <svg width={view.widthPx} height={view.heightPx} role="img" aria-labelledby={name}>
          <title id={name}>{view.said}</title>
          <Hatches />
          <Scene view={view} dyed={dyed} proposed={proposed} />
        </svg>
        {places.length === 0 ? null : (
          <ul className="things" aria-label={words.room.places}>
            {places.map((place) => (
              <li key={place.id}>
                <button
                  type="button"
                  data-place={place.id}
                  aria-label={place.verdict === null ? place.said : `${place.said}: ${words.verdicts[place.verdict]}`}
                  aria-pressed={place.thing === undefined ? undefined : place.id === chosen}
                  tabIndex={place.id === first ? 0 : -1}
                  style={{ left: place.x, top: place.y, width: Math.max(place.w, 4), height: Math.max(place.h, 4) }}
                  onClick={(event) => {
                    // A pointer's click is answered by the picture, which knows what is nearest.
                    if (event.detail !== 0) return
                    event.stopPropagation()
                    go(place)
                  }}
                />
              </li>
            ))}
          </ul>
        )}
      </div>
    </div>
  )
})
