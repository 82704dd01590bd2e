import { lazy, Suspense, useEffect, useState } from 'react'
import { SessionProvider, useJob, useSession } from '../bench.ts'
import { useAnatomy } from '../hands/anatomy.ts'
import { HandsAndEyes } from '../hands/hands-and-eyes.tsx'
import { usePreferences } from '../hands/preferences.ts'
import { RoomPrint } from '../paper/room-print.tsx'
import type { JobRoute } from '../route.ts'
import { BoxSheet } from '../six-sides/box-sheet.tsx'
import { Pair } from '../six-sides/pair.tsx'
import { SideStrip } from '../six-sides/side-strip.tsx'
import { Wire } from '../six-sides/wire.tsx'
import { TrialStrip } from '../tag/mends.tsx'
import { Tag } from '../tag/tag.tsx'
import { ThingTag } from '../tag/thing-tag.tsx'
import { fold, goTo } from '../where.ts'
import { useWords } from '../words/index.ts'
import { Leaf } from '../working/leaf.tsx'
import { Header, PhoneWays } from './header.tsx'
import { Keys } from './keys.tsx'
import { Rule } from './rule.tsx'
import { Spoken, Strips } from './strips.tsx'

const RoomPicture = lazy(async () => ({ default: (await import('../rooms/room.tsx')).RoomPicture }))
const RoomTag = lazy(async () => ({ default: (await import('../rooms/room-tag.tsx')).RoomTag }))
const Paper = lazy(() => import('../paper/paper.tsx'))

/** The one frame of every job page, from the outside in: header, rule, sheet, tag, working. Only the sheet changes. */
export function JobPage({ route }: { readonly route: JobRoute }) {
  const words = useWords()
  const session = useSession(route.job)
  if (session === undefined) return <p className="alone">{words.states.reading}</p>
  if (session === null) return <p className="alone">{words.states.noJob}</p>
  return (
    <SessionProvider value={session}>
      <Frame route={route} />
    </SessionProvider>
  )
}

function Frame({ route }: { readonly route: JobRoute }) {
  const { session, now } = useJob()
  const anatomy = useAnatomy()
  const { letterKeys } = usePreferences()
  const [open, setOpen] = useState<'hands' | 'keys' | null>(null)
  useEffect(() => {
    document.title = now.answer?.title ?? now.file
  }, [now.answer, now.file])
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.target instanceof HTMLInputElement || event.target instanceof HTMLTextAreaElement) return
      if (event.key === 'z' && (event.ctrlKey || event.metaKey)) {
        event.preventDefault()
        void session.undo()
      } else if (event.key === '?' && letterKeys) setOpen('keys')
      else if (
        event.key === 'Escape' &&
        !event.defaultPrevented &&
        document.querySelector('dialog[open]') === null &&
        !inSheet(event.target)
      )
        fold()
    }
    window.addEventListener('keydown', onKey)
    return () => window.removeEventListener('keydown', onKey)
  }, [session, letterKeys])
  const wide = anatomy !== 'phone'
  // What is in the hand is moved on the sheet.
  const inHand = route.page === 'six sides' && (route.act === 'move' || route.act === 'move machine')
  const folded = {
    tag: !wide && !inHand && route.thing !== undefined,
    working: route.working !== undefined,
  }
  const classes = ['job', anatomy, folded.tag ? 'tag-open' : '', folded.working ? 'working-open' : '', inHand ? 'in-hand' : '']
  return (
    <div className={classes.join(' ')}>
      <Header route={route} openHands={() => setOpen('hands')} />
      <div className="strips">
        <Strips />
      </div>
      {wide ? <Rule here={route.page === 'room' ? route.question : null} /> : null}
      <main className="middle">
        {route.page === 'rule' ? (
          wide ? null : (
            <div className="rule-page">
              <PhoneWays job={route.job} />
              <Rule here={null} />
            </div>
          )
        ) : (
          <>
            <div className="sheet" tabIndex={-1}>
              <Sheet route={route} />
            </div>
            <Hanging route={route} />
            {route.page === 'room' ? <RoomPrint route={route} /> : null}
            {folded.working ? <Leaf route={route} /> : null}
          </>
        )}
      </main>
      <Spoken />
      {open === 'hands' ? <HandsAndEyes done={() => setOpen(null)} /> : null}
      {open === 'keys' ? <Keys done={() => setOpen(null)} /> : null}
    </div>
  )
}

const inSheet = (target: EventTarget | null): boolean => target instanceof Element && target.closest('.box-sheet') !== null

function Sheet({ route }: { readonly route: JobRoute }) {
  const { now } = useJob()
  const words = useWords()
  if (now.answer === null) return <p className="quiet">{now.problems.length > 0 ? '' : words.states.reading}</p>
  if (route.page === 'room')
    return (
      <Suspense fallback={<p className="quiet">{words.states.reading}</p>}>
        <RoomPicture route={route} />
      </Suspense>
    )
  if (route.page === 'paper')
    return (
      <Suspense fallback={<p className="quiet">{words.states.reading}</p>}>
        <Paper route={route} />
      </Suspense>
    )
  if (route.page === 'rule') return null
  if (route.page === 'compare') return <Pair route={route} boxes={now.answer.boxes.map((b) => b.box)} />
  const name = route.box ?? route.thing?.box
  const box = now.answer.boxes.find((b) => b.box === name) ?? now.answer.boxes[0]
  if (now.answer.head.plugsCount === 0)
    return (
      <div className="empty">
        <p>{words.states.empty}</p>
        <button type="button" className="one-act" onClick={() => goTo({ page: 'call' })}>
          {words.header.callSheet}
        </button>
      </div>
    )
  if (box === undefined) return <p className="quiet">{words.sheet.notLaidOut}</p>
  return (
    <>
      <SideStrip route={route} answer={box} boxes={now.answer.boxes.map((b) => b.box)} />
      <BoxSheet route={route} answer={box} />
    </>
  )
}

/** The one tag there is: of the chosen thing, else of the room. */
function Hanging({ route }: { readonly route: JobRoute }) {
  const { now } = useJob()
  const words = useWords()
  const phone = useAnatomy() === 'phone'
  const { thing } = route
  const line = now.answer?.boxes.find((b) => b.box === thing?.box)?.things.find((t) => t.id === thing?.id)
  if (thing !== undefined && line !== undefined)
    return (
      <>
        <ThingTag key={`${thing.box} ${thing.id}`} box={thing.box} line={line} route={route} />
        {route.page === 'six sides' ? <Wire /> : null}
      </>
    )
  if (route.page === 'room' && !phone)
    return (
      <Suspense fallback={null}>
        <RoomTag key={route.question} route={route} />
      </Suspense>
    )
  return now.trial === null || (phone && route.page === 'room') ? null : (
    <Tag name={words.mends.mend} wired={false}>
      <TrialStrip />
    </Tag>
  )
}
