import type { AirChoice } from '@plugstead/engine/job'
import { useState } from 'react'
import { useJob } from '../bench.ts'
import { usePreferences } from '../hands/preferences.ts'
import { sentence, shown } from '../hands/units.ts'
import { Mark } from '../marks/mark.tsx'
import { pinEdit } from '../tag/pin-edit.ts'
import { useWords } from '../words/index.ts'
import type { AirRoomView } from '../worker/air/types.ts'
import { Figures } from './figures.tsx'
import type { Trying } from './use-trial.ts'

/** What is tried most; the rest can be pinned in the tag. */
const OFFERED: readonly AirChoice[] = [
  ...([
    'vents',
    'vent-places',
    'winter-open',
    'roof-paint',
    'roof-foam',
    'second-roof',
    'heater',
    'humidistat',
    'fan',
    'drip-hood',
  ] as const),
]

/** Other choices, the year with them, and the act that keeps them. */
export function WhatIf({ room, trying }: { readonly room: AirRoomView; readonly trying: Trying }) {
  const { session, now } = useJob()
  const words = useWords()
  const { units } = usePreferences()
  const [keeping, setKeeping] = useState(false)
  const { pins, set, answer, busy } = trying
  const tried = Object.keys(pins).length > 0
  const choices = OFFERED.flatMap((name) => room.choices.filter((c) => c.name === name))
  const take = (name: AirChoice, value: string, stands: string): void => {
    const { [name]: _gone, ...rest } = pins
    set(value === stands ? rest : { ...rest, [name]: value })
  }
  const said = room.choices
    .flatMap((c) => (pins[c.name] === undefined ? [] : [`${words.choices[c.key]} ${sentence(pins[c.name] ?? '', units)}`]))
    .join(', ')
  const keep = async (): Promise<void> => {
    setKeeping(true)
    const edits = room.choices.flatMap((c) =>
      c.path === undefined || pins[c.name] === undefined
        ? []
        : [pinEdit(c.path, pins[c.name] as string, words.tag.desk, words.air.keepWhy)],
    )
    const kept = await session.act(words.air.keepAct(said), edits)
    setKeeping(false)
    if (kept) set({})
  }
  return (
    <section
      className={tried ? 'air-what-if trying' : 'air-what-if'}
      aria-labelledby="air-what-if"
      data-busy={busy ? 'yes' : 'no'}
      data-answer={trying.n}
    >
      <h3 id="air-what-if">{words.air.tryTitle}</h3>
      <p className="small">{words.air.tryNote}</p>
      <div className="air-choices">
        {choices.map((c) => {
          const value = pins[c.name] ?? String(c.value)
          return (
            <label
              key={c.name}
              className={`air-choice${pins[c.name] === undefined ? '' : ' tried'}${c.name === 'vent-places' ? ' wide' : ''}`}
            >
              <span>{words.choices[c.key]}</span>
              <select
                value={value}
                disabled={now.stale || keeping}
                onChange={(event) => take(c.name, event.target.value, String(c.value))}
              >
                {[...new Set([String(c.value), value, ...(c.options ?? []).map(String)])].map((option) => (
                  <option key={option} value={option}>
                    {sentence(option, units)}
                  </option>
                ))}
              </select>
            </label>
          )
        })}
      </div>
      <div role="status" className="air-trial">
        {!tried ? null : busy && answer === null ? (
          <p>{words.air.trying}</p>
        ) : answer === null ? null : answer.is === 'unread' ? (
          <p>{answer.wanted.map((wanted) => words.air.unread(sentence(wanted, units))).join(' ')}</p>
        ) : (
          <>
            <p>
              <Mark of={answer.worst.is} /> {words.air.worst(words.verdicts[answer.worst.was], words.verdicts[answer.worst.is])}.{' '}
              {answer.moved.length === 0 ? `${words.air.noneMoves}.` : null}
            </p>
            {answer.moved.length === 0 ? null : (
              <ul className="air-moved" aria-label={words.air.moved}>
                {answer.moved.map((m) => (
                  <li key={m.code}>
                    <Mark of={m.is} /> {words.air.findings[m.what] ?? m.what}:{' '}
                    {words.air.becomes(words.verdicts[m.was], words.verdicts[m.is])}
                  </li>
                ))}
              </ul>
            )}
          </>
        )}
      </div>
      {tried ? (
        <div className="mend-acts">
          <span className="small">{words.mends.trying}</span>
          <button
            type="button"
            className="one-act"
            disabled={busy || keeping || answer?.is !== 'answer'}
            onClick={() => void keep()}
          >
            {words.air.keep}
          </button>
          <button type="button" className="word" onClick={() => set({})}>
            {words.air.takeBack}
          </button>
          <span className="small">{words.air.keepNote}</span>
        </div>
      ) : null}
      <Figures
        name={words.air.year}
        now={room.counts}
        {...(tried && answer?.is === 'answer' ? { now: answer.stands, tried: answer.tried } : {})}
      />
      {tried && answer?.is === 'answer' ? (
        <p className="small" data-took-ms={Math.round(answer.tookMs)}>
          {words.air.took(shown(Math.round(answer.tookMs / 10) / 100, 's', units))}
        </p>
      ) : null}
    </section>
  )
}
