import type { Assessment } from '@plugstead/engine/assess'
import type { QuestionId } from '@plugstead/engine/kernel'
import { type ComponentType, Suspense } from 'react'
import { useAsked } from '../ask.ts'
import { useJob } from '../bench.ts'
import type { JobRoute } from '../route.ts'
import { goTo, turnTo } from '../where.ts'
import { useWords } from '../words/index.ts'
import { hasResults, type PictureProps, pictures } from './registry.ts'

type Room = Extract<JobRoute, { page: 'room' }>

/** The left of a question's room: its picture. */
export function RoomPicture({ route }: { readonly route: Room }) {
  const { now } = useJob()
  const words = useWords()
  const { question } = route
  const verdict = now.answer?.questions.find((q) => q.id === question)?.verdict
  return (
    <section className={now.stale ? 'room stale' : 'room'}>
      <h2>
        {words.questions[question]} <span>{words.asks[question]}</span>
      </h2>
      {verdict === 'not built' ? (
        <p className="quiet">{words.room.notBuilt}</p>
      ) : hasResults(question) && pictures[question] !== undefined ? (
        <Picture question={question} route={route} />
      ) : (
        <p className="quiet">{words.room.noPicture}</p>
      )}
    </section>
  )
}

function Picture({ question, route }: { readonly question: keyof Assessment['results'] & QuestionId; readonly route: Room }) {
  const words = useWords()
  const results = useAsked('results', { question })
  const Drawn = pictures[question] as ComponentType<PictureProps> | undefined
  if (Drawn === undefined || !results) return <p className="quiet">{words.states.reading}</p>
  return (
    <Suspense fallback={<p className="quiet">{words.states.reading}</p>}>
      <Drawn
        results={results}
        chosen={route.thing ?? null}
        choose={(box, id) => turnTo({ ...route, thing: { box, id } })}
        unfold={(working) => goTo({ ...route, working })}
      />
    </Suspense>
  )
}
