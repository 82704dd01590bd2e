import type { QuestionId } from '@plugstead/engine/kernel'
import { useRef, useState } from 'react'
import { AirRoom } from '../air/air-room.tsx'
import { useAsked } from '../ask.ts'
import { useJob } from '../bench.ts'
import { useAnatomy } from '../hands/anatomy.ts'
import type { JobRoute } from '../route.ts'
import { goTo, turnTo } from '../where.ts'
import { useWords } from '../words/index.ts'
import type { Leads } from '../worker/protocol.ts'
import { Blocks } from './blocks.tsx'
import { RoomTag } from './room-tag.tsx'
import { LETTER_PX, useWidth } from './use-width.ts'

type Room = Extract<JobRoute, { page: 'room' }>

/** How a room leads on: to the tag of a thing, to a derivation. */
export interface Ways {
  readonly chosen: string | null
  readonly choose: (thing: NonNullable<Leads['thing']>) => void
  readonly unfold: (working: string) => void
}

/** The left of a question's room: its picture, and the same facts as tables. On a phone its tag stands below. */
export function RoomPicture({ route }: { readonly route: Room }) {
  const { now } = useJob()
  const words = useWords()
  const phone = useAnatomy() === 'phone'
  const { question } = route
  const verdict = now.answer?.questions.find((q) => q.id === question)?.verdict
  return (
    <section className={now.stale ? 'room stale' : 'room'} aria-labelledby="room-head">
      <h2 id="room-head">
        {words.questions[question]} <span>{words.asks[question]}</span>
      </h2>
      {question === 'money' ? <ToCustomer job={route.job} /> : null}
      {verdict === 'not built' ? (
        <p className="quiet">{words.room.notBuilt}</p>
      ) : question === 'air' ? (
        <AirRoom key={route.job} route={route} />
      ) : (
        <Sheets key={question} question={question} route={route} />
      )}
      {phone ? <RoomTag route={route} /> : null}
    </section>
  )
}

/** What of the money leaves the shop. */
function ToCustomer({ job }: { readonly job: string }) {
  const words = useWords()
  return (
    <nav className="room-papers" aria-label={words.offer.toTheCustomer}>
      <button type="button" className="plate" onClick={() => goTo({ page: 'paper', job, sheet: 'offer' })}>
        {words.offer.title}
      </button>
      <button type="button" className="plate" onClick={() => goTo({ page: 'paper', job, sheet: 'rent' })}>
        {words.offer.rentSchedule}
      </button>
    </nav>
  )
}

function Sheets({ question, route }: { readonly question: QuestionId; readonly route: Room }) {
  const words = useWords()
  const [sheet, setSheet] = useState(0)
  const frame = useRef<HTMLDivElement>(null)
  const widthPx = useWidth(frame)
  const view = useAsked('room', widthPx === null ? null : { question, sheet, widthPx, letterPx: LETTER_PX })
  const ways: Ways = {
    chosen: route.thing?.id ?? null,
    choose: (thing) => turnTo({ ...route, thing }),
    unfold: (working) => goTo({ ...route, working }),
  }
  return (
    <div ref={frame} className="room-sheets">
      {view === undefined ? (
        <p className="quiet">{words.states.reading}</p>
      ) : view === null ? (
        <p className="quiet">{words.room.noFigures}</p>
      ) : (
        <>
          {view.sheets.length < 2 ? null : (
            <nav className="room-names" aria-label={words.room.sheets}>
              {view.sheets.map((name, i) => (
                <button key={name} type="button" aria-current={i === view.shown ? 'true' : undefined} onClick={() => setSheet(i)}>
                  {name}
                </button>
              ))}
            </nav>
          )}
          <h3 className={view.sheets.length < 2 ? undefined : 'spoken'}>{view.sheets[view.shown]}</h3>
          <p className="quiet">{view.sub}</p>
          <Blocks blocks={view.blocks} ways={ways} name={view.sheets[view.shown] ?? ''} />
        </>
      )}
    </div>
  )
}
