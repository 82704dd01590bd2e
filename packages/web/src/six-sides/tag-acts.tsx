import { useState } from 'react'
import { useJob } from '../bench.ts'
import type { JobRoute } from '../route.ts'
import { turnTo } from '../where.ts'
import { useWords } from '../words/index.ts'
import type { ThingLine } from '../worker/protocol.ts'
import { pinText } from './on-side.ts'

/** At the foot of a thing's tag: move it, move the machine it feeds, pin it where it hangs. */
export function TagActs({ box, line, route }: { readonly box: string; readonly line: ThingLine; readonly route: JobRoute }) {
  const { session, now } = useJob()
  const words = useWords()
  const { place } = line
  const machine = now.answer?.boxes.find((b) => b.box === box)?.machines.find((m) => m.things.includes(line.id))
  const pin = place === null ? undefined : now.answer?.pins.find((p) => p.path === place.path)
  const here = route.page === 'six sides' ? route : ({ page: 'six sides', job: route.job, thing: { box, id: line.id } } as const)
  const inYard = here.page === 'six sides' && 'side' in here && here.side === 'yard'
  if (place === null && machine === undefined) return null
  if (here.page === 'six sides' && 'act' in here && here.act === 'pin' && place !== null) {
    const { act: _act, ...still } = here
    const value = pinText({ side: line.side, ...place }, line.face)
    return (
      <Why
        done={(why) => {
          turnTo(still)
          if (why === null) return
          const edits = [
            { path: ['choices', place.path], value: { value, by: words.tag.desk, why: why === '' ? words.tag.noWhy : why } },
          ]
          void session.act(words.move.pinAct(line.letters), edits)
        }}
      />
    )
  }
  return (
    <>
      {pin === undefined ? null : <p className="pinned-by">{words.tag.pinned(pin.by, pin.why)}</p>}
      <div className="tag-acts">
        {place === null || inYard ? null : (
          <>
            <button type="button" className="word" onClick={() => turnTo({ ...here, act: 'move' })}>
              {words.move.move}
            </button>
            {pin === undefined ? (
              <button type="button" className="word" onClick={() => turnTo({ ...here, act: 'pin' })}>
                {words.tag.pin}
              </button>
            ) : (
              <button
                type="button"
                className="word"
                onClick={() => void session.act(words.move.unpinAct(line.letters), [{ path: ['choices', place.path] }])}
              >
                {words.tag.unpin}
              </button>
            )}
          </>
        )}
        {machine === undefined ? null : (
          <button type="button" className="word" onClick={() => turnTo({ ...here, act: 'move machine' })}>
            {words.move.machine(machine.id)}
          </button>
        )}
      </div>
    </>
  )
}

/** Asked once, and may stay empty. Null: left. */
function Why({ done }: { readonly done: (why: string | null) => void }) {
  const words = useWords()
  const [why, setWhy] = useState('')
  return (
    <form
      className="tag-acts why"
      onSubmit={(event) => {
        event.preventDefault()
        done(why.trim())
      }}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return
        event.preventDefault()
        event.stopPropagation()
        done(null)
      }}
    >
      <label>
        {words.move.why}
        <input
          value={why}
          // biome-ignore lint/a11y/noAutofocus: the hand asked for the pin a moment ago, and this is all that is asked of it
          autoFocus
          onChange={(event) => setWhy(event.target.value)}
        />
      </label>
      <button type="submit" className="one-act">
        {words.tag.pin}
      </button>
      <button type="button" className="word" onClick={() => done(null)}>
        {words.move.leave}
      </button>
    </form>
  )
}
