import { useId, useState } from 'react'
import { useJob } from '../bench.ts'
import { usePreferences } from '../hands/preferences.ts'
import { sentence, shown } from '../hands/units.ts'
import { Mark } from '../marks/mark.tsx'
import { useWords } from '../words/index.ts'
import type { Choice } from '../worker/protocol.ts'
import { pinEdit } from './pin-edit.ts'

/** A choice with its pin: the word that pins it or takes the pin out, why it is pinned, and what else it may be. */
export function ChoiceLine({ choice }: { readonly choice: Choice }) {
  const { session } = useJob()
  const words = useWords()
  const { units } = usePreferences()
  const [asking, setAsking] = useState(false)
  const { key, path, pin, options } = choice
  const value = shown(choice.value, choice.unit, units)
  const name = words.choices[key]
  const pinAt = (path: string, to: Choice['value'], why = words.tag.noWhy): Promise<boolean> =>
    session.act(words.tag.pinAct(name, shown(to, choice.unit, units)), [pinEdit(path, to, words.tag.desk, why)])
  return (
    <div>
      <dt>{name}</dt>
      <dd>
        {pin === undefined ? null : <Mark of="punch" />}{' '}
        {path === undefined || options === undefined ? (
          value
        ) : (
          <select
            aria-label={words.tag.choose(name)}
            value={String(choice.value)}
            onChange={(event) => {
              const to = options.find((option) => String(option) === event.target.value)
              if (to !== undefined) void pinAt(path, to).then((kept) => setAsking(kept))
            }}
          >
            {[...new Set([choice.value, ...options])].map((option) => (
              <option key={option} value={String(option)}>
                {choice.unit === '' && typeof option === 'string' ? sentence(option, units) : shown(option, choice.unit, units)}
              </option>
            ))}
          </select>
        )}{' '}
        {path === undefined ? null : pin === undefined ? (
          <button
            type="button"
            className="word"
            aria-label={`${words.tag.pin} ${name}, ${value}`}
            onClick={() => void pinAt(path, choice.value).then((kept) => setAsking(kept))}
          >
            {words.tag.pin}
          </button>
        ) : (
          <button
            type="button"
            className="word"
            onClick={() => void session.act(words.tag.unpinAct(name), [{ path: ['choices', path] }])}
          >
            {words.tag.unpin}
          </button>
        )}
        {pin === undefined ? null : <small className="why">{words.tag.pinned(pin.by, pin.why)}</small>}
        {asking && pin !== undefined ? <Why name={name} path={pin.path} done={() => setAsking(false)} /> : null}
      </dd>
    </div>
  )
}

/** Asked once, when something was pinned; it may stay empty. */
function Why({ name, path, done }: { readonly name: string; readonly path: string; readonly done: () => void }) {
  const { session } = useJob()
  const words = useWords()
  const id = useId()
  const [why, setWhy] = useState('')
  return (
    <form
      className="why-asked"
      onSubmit={(event) => {
        event.preventDefault()
        done()
        if (why.trim() !== '')
          void session.act(words.tag.whyAct(name), [{ path: ['choices', path, 'why'], value: why.trim().slice(0, MOST_LETTERS) }])
      }}
    >
      <label htmlFor={id}>{words.tag.why}</label>
      <input id={id} value={why} maxLength={MOST_LETTERS} onChange={(event) => setWhy(event.target.value)} />
      <button type="submit" className="word">
        {words.tag.whyKeep}
      </button>
    </form>
  )
}
const MOST_LETTERS = 500
