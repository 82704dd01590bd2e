import type { Preferences } from '../hands/preferences.ts'
import { shown } from '../hands/units.ts'
import type { Words } from '../words/en.ts'
import { useWords } from '../words/index.ts'
import type { GlassView, MachineLine, Rect, ThingLine } from '../worker/protocol.ts'
import { thingWords } from './place-words.ts'

interface Listed {
  readonly view: GlassView
  readonly lines: ReadonlyMap<string, ThingLine>
  readonly machines: readonly MachineLine[]
  readonly chosen: string | null
  readonly choose: (id: string) => void
  readonly units: Preferences['units']
}

/** The drawing in words: side by side, a button for each thing where it is drawn; then the machines of the yard. */
export function ThingsList({ view, lines, machines, chosen, choose, units }: Listed) {
  const words = useWords()
  const first = view.things.some((t) => t.id === chosen) ? chosen : view.things[0]?.id
  const sides = [...new Set(view.things.map((t) => t.side))]
  const drawn = machines.flatMap((line) => {
    const place = view.machines.find((m) => m.id === line.id)
    return place === undefined ? [] : [{ line, place }]
  })
  const ofChosen = drawn.find(({ line }) => chosen !== null && line.things.includes(chosen))?.line.id
  const firstMachine = ofChosen ?? drawn[0]?.line.id
  return (
    <ul className="things" aria-label={words.sheet.things}>
      {sides.map((side) => (
        <li key={side}>
          <ul aria-label={words.sides[side]}>
            {[...lines.values()]
              .filter((line) => line.side === side)
              .map((line) => {
                const place = view.things.find((t) => t.id === line.id)
                if (place === undefined) return null
                return (
                  <Button
                    key={line.id}
                    id={line.id}
                    place={place}
                    said={thingWords(line, words, units)}
                    pressed={line.id === chosen}
                    first={line.id === first}
                    choose={choose}
                  />
                )
              })}
          </ul>
        </li>
      ))}
      {drawn.length === 0 ? null : (
        <li>
          <ul aria-label={words.yard.machines}>
            {drawn.map(({ line, place }) => (
              <Button
                key={line.id}
                id={`machine ${line.id}`}
                place={place}
                said={machineWords(line, words, units)}
                pressed={line.id === ofChosen}
                first={line.id === firstMachine}
                choose={choose}
              />
            ))}
          </ul>
        </li>
      )}
    </ul>
  )
}

export function machineWords(line: MachineLine, words: Words, units: Preferences['units']): string {
  const length = Math.max(0, ...Object.values(line.lengthM))
  return words.yard.machine([
    line.id,
    ...(line.what === line.id ? [] : [line.what]),
    words.yard.cord(shown(length, 'm', units)),
    ...(line.voltageV === null ? [] : [shown(line.voltageV, 'V', units, { digits: 4 })]),
    ...(line.verdict === null ? [] : [words.verdicts[line.verdict]]),
  ])
}

function Button({
  id,
  place,
  said,
  pressed,
  first,
  choose,
}: {
  readonly id: string
  readonly place: Rect
  readonly said: string
  readonly pressed: boolean
  readonly first: boolean
  readonly choose: (id: string) => void
}) {
  return (
    <li>
      <button
        type="button"
        data-choose={id}
        aria-label={said}
        aria-pressed={pressed}
        tabIndex={first ? 0 : -1}
        style={{ left: place.x, top: place.y, width: Math.max(place.w, 4), height: Math.max(place.h, 4) }}
        onClick={(event) => {
          // A pointer's click is answered by the sheet, which knows what is nearest; this is for keys and for helpers of the blind.
          if (event.detail !== 0) return
          event.stopPropagation()
          choose(id)
        }}
      />
    </li>
  )
}
