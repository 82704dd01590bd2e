import type { CallAnswers, CallQuestion } from '@plugstead/engine/job'
import { useEffect, useState } from 'react'
import { useBench } from '../bench.ts'
import { useAnatomy } from '../hands/anatomy.ts'
import { today } from '../hands/clock.ts'
import { HandsAndEyes } from '../hands/hands-and-eyes.tsx'
import { AwayWord, OlderStrip } from '../kept/kept-words.tsx'
import { takeIn } from '../today/take-in.ts'
import { fold, goTo } from '../where.ts'
import { useWords } from '../words/index.ts'
import { CallTag } from './call-tag.tsx'
import type { Answers } from './draft.ts'
import { Field, fieldOf } from './fields.tsx'
import { fileOf, given, useCall } from './use-call.ts'

type Id = keyof CallAnswers

/** The call sheet: one column of the phone's questions in the order they are asked, a tag beside it that fills as the call goes on. */
export default function Call() {
  const words = useWords()
  const bench = useBench()
  const anatomy = useAnatomy()
  const { now, type, settle, wipe } = useCall()
  const [questions, setQuestions] = useState<readonly CallQuestion[]>([])
  const [hands, setHands] = useState(false)
  const [wanting, setWanting] = useState(false)
  const [wiped, setWiped] = useState<Answers | null>(null)
  useEffect(() => {
    document.title = words.call.title
    void bench.scribe.call('questions', null).then(setQuestions)
  }, [bench, words])
  useEffect(() => {
    if (questions.length > 0) fieldOf(questions[0]!.id)?.focus()
  }, [questions])
  useEffect(() => {
    const onKey = (event: globalThis.KeyboardEvent) => {
      if (event.key === 'Escape' && document.querySelector('dialog[open]') === null) fold()
    }
    window.addEventListener('keydown', onKey)
    return () => window.removeEventListener('keydown', onKey)
  }, [])

  const problemOf = (id: Id) => now.problems.find((p) => p.path === id && (wanting || (now.answers[id] ?? '').trim() !== ''))
  const next = (at: number) => {
    const id = questions[at + 1]?.id
    ;(id === undefined ? document.getElementById('call-keep') : fieldOf(id))?.focus()
  }
  /** Keeps the call as a job and goes on to its six sides, or to its offer. */
  const keep = async (then: 'six sides' | 'offer' = 'six sides') => {
    const ringBack = now.stale.plan ? undefined : now.first?.ringBack?.day
    const days = { called: today(), ...(ringBack === undefined ? {} : { ringBack }) }
    const text = await bench.scribe.call('begin', { answers: given(now.answers), days })
    if (!text.ok) {
      setWanting(true)
      await settle(now.answers)
      const first = questions.find(({ id }) => text.problems.some((p) => p.path === id))
      if (first !== undefined) fieldOf(first.id)?.focus()
      return
    }
    const kept = await takeIn(bench, fileOf(now.answers), new TextEncoder().encode(text.value))
    if (!kept.ok) return
    wipe()
    goTo(then === 'offer' ? { page: 'paper', job: kept.value, sheet: 'offer' } : { page: 'six sides', job: kept.value })
  }
  return (
    <div className={`job day calling ${anatomy}`}>
      <header>
        <button type="button" className="back" aria-label={words.header.foldTo(words.header.today)} onClick={() => fold()}>
          <span className="fold">{words.header.today}</span>
        </button>
        <h1>{words.call.title}</h1>
        <AwayWord />
        <div className="acts">
          <button type="button" onClick={() => setHands(true)} aria-haspopup="dialog">
            <span className="fold">{words.header.hands}</span>
          </button>
        </div>
      </header>
      <div className="strips">
        <OlderStrip />
      </div>
      <main className="middle">
        <form
          className="sheet day-sheet"
          aria-label={words.call.label}
          onSubmit={(event) => {
            event.preventDefault()
            void keep()
          }}
        >
          <ol className="asks">
            {questions.map((question, at) => (
              <Field
                key={question.id}
                question={question}
                number={at + 1}
                text={now.answers[question.id] ?? ''}
                problem={problemOf(question.id)}
                type={(text) => type(question.id, text)}
                settle={() => void settle(now.answers)}
                next={() => next(at)}
              />
            ))}
          </ol>
          {wanting && now.problems.length > 0 ? <p role="alert">{words.call.keepNeeds}</p> : null}
          <div className="ends">
            <button type="submit" id="call-keep" className="one-act">
              {words.call.keep}
            </button>
            {Object.values(now.answers).some((text) => text !== '') ? (
              <button
                type="button"
                className="plate"
                onClick={() => {
                  setWiped(now.answers)
                  wipe()
                }}
              >
                {words.call.wipe}
              </button>
            ) : wiped === null ? null : (
              <p className="undone">
                {words.call.wiped}{' '}
                <button
                  type="button"
                  onClick={() => {
                    wipe(wiped)
                    setWiped(null)
                  }}
                >
                  <span className="fold">{words.today.undo}</span>
                </button>
              </p>
            )}
          </div>
        </form>
        <CallTag now={now} offer={() => void keep('offer')} />
      </main>
      {hands ? <HandsAndEyes done={() => setHands(false)} /> : null}
    </div>
  )
}
