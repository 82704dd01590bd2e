import type { NotTold } from '@plugstead/book'
import { useEffect, useRef, useState } from 'react'
import { useAsked } from '../ask.ts'
import { useJob } from '../bench.ts'
import { Ticks } from '../frame/ticks.tsx'
import { useAnatomy } from '../hands/anatomy.ts'
import { today } from '../hands/clock.ts'
import { OneOf } from '../marks/one-of.tsx'
import { Tell } from '../rooms/tell.tsx'
import type { JobRoute } from '../route.ts'
import { goTo, turnTo } from '../where.ts'
import { useWords } from '../words/index.ts'
import { MakePdf } from './make.tsx'
import { Page } from './page.tsx'
import { useTypesetter } from './typesetter.ts'

/** The offer, alone or with the schedule of rent behind it: as it prints, its PDF, and what nobody told with where it is told. */
export function Offer({ route, rent }: { readonly route: Extract<JobRoute, { page: 'paper' }>; readonly rent: boolean }) {
  const words = useWords()
  const { now } = useJob()
  const phone = useAnatomy() === 'phone'
  const [day] = useState(today)
  const [paper, setPaper] = useState<'letter' | 'a4' | null>(null)
  const asked = { day, rent, paper }
  const offer = useAsked('offer', asked)
  const { make, said } = useTypesetter('offer', (engine) => engine.call('offerBook', asked))
  const pages = useRef<HTMLDivElement>(null)
  const read = offer != null
  useEffect(() => {
    // The schedule was asked for by its name: it is what is seen first.
    if (read && rent && !phone) pages.current?.lastElementChild?.scrollIntoView({ block: 'start' })
  }, [read, rent, phone])
  return (
    <div className={now.stale ? 'paper-room offer-room stale' : 'paper-room offer-room'}>
      <section className="paper-list" aria-label={words.offer.title}>
        <h2>{words.offer.title}</h2>
        <OneOf
          title={words.offer.sent}
          of={{ offer: words.offer.alone, rent: words.offer.withRent }}
          now={rent ? 'rent' : 'offer'}
          take={(sheet) => turnTo({ ...route, sheet })}
        />
        <OneOf title={words.paper.size} of={words.paper.sizes} now={offer?.paper ?? paper ?? 'letter'} take={setPaper} />
        <p>{words.offer.dated(words.day(day))}</p>
        <MakePdf make={make} said={said} />
        {phone ? <Ticks /> : null}
        {rent && offer?.rents === false ? <p>{words.offer.noRent}</p> : null}
        {offer == null || offer.notTold.length === 0 ? null : (
          <>
            <h3>{words.offer.lacks}</h3>
            <ul className="facts-told">
              {offer.notTold.map((one) => (
                <NotToldLine key={one.what} of={one} />
              ))}
            </ul>
          </>
        )}
        <p className="sheets">
          <button type="button" onClick={() => goTo({ page: 'paper', job: route.job })}>
            {words.offer.others} <small>{words.offer.othersWhat}</small>
          </button>
        </p>
      </section>
      <div className="offer-pages" ref={pages}>
        {offer == null ? (
          <p className="quiet">{words.states.reading}</p>
        ) : (
          offer.pages.map((page) => <Page key={`${page.line.id} ${offer.paper}`} page={page} check={false} />)
        )}
      </div>
    </div>
  )
}

/** What is of the job is told here; what is the shop's own stands in its folder, which Today opens. */
function NotToldLine({ of: { what, path, shop } }: { readonly of: NotTold }) {
  const words = useWords()
  return (
    <li>
      <span>
        <span className="assumed">{words.offer.notTold}</span> {what}
      </span>
      {path === null ? (
        <>
          <small>{words.offer.inShop(shop ?? '')}</small>
          <button
            type="button"
            className="word"
            aria-label={`${words.offer.openShop}: ${what}`}
            onClick={() => goTo({ page: 'today' })}
          >
            {words.offer.openShop}
          </button>
        </>
      ) : (
        <Tell path={path} what={what} />
      )}
    </li>
  )
}
