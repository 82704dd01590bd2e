import { useJob } from '../bench.ts'
import { useAnatomy } from '../hands/anatomy.ts'
import { AwayWord } from '../kept/kept-words.tsx'
import { folded, type JobRoute } from '../route.ts'
import { FoldTheBox } from '../six-sides/fold-the-box.tsx'
import { fold, goTo } from '../where.ts'
import type { Words } from '../words/en.ts'
import { useWords } from '../words/index.ts'
import type { JobAnswer } from '../worker/protocol.ts'

/** Where am I, what is it, the facts that press; the first word folds one level back and says where to. */
export function Header({ route, openHands }: { readonly route: JobRoute; readonly openHands: () => void }) {
  const { session, now } = useJob()
  const words = useWords()
  const phone = useAnatomy() === 'phone'
  const back = backWord(words, route)
  const title = now.answer?.title ?? now.file
  return (
    <header>
      <button type="button" className="back" aria-label={words.header.foldTo(back)} onClick={() => fold()}>
        <span className="fold">{back}</span>
      </button>
      <h1>
        {phone && route.page !== 'rule' ? (
          <button type="button" onClick={() => goTo({ page: 'rule', job: route.job })}>
            <span className="fold">{title}</span>
          </button>
        ) : (
          title
        )}
      </h1>
      {now.answer === null ? null : <Facts answer={now.answer} />}
      <AwayWord />
      <div className="acts">
        {route.page === 'six sides' ? null : (
          <button type="button" className="wide" onClick={() => goTo({ page: 'six sides', job: route.job })}>
            <span className="fold">{words.header.sixSides}</span>
          </button>
        )}
        {route.page === 'six sides' ? <FoldTheBox route={route} className="wide" /> : null}
        {route.page === 'compare' ? null : (
          <button type="button" className="wide" onClick={() => goTo({ page: 'compare', job: route.job })}>
            <span className="fold">{words.pair.word}</span>
          </button>
        )}
        <button type="button" className="wide" onClick={() => goTo({ page: 'call' })}>
          <span className="fold">{words.header.callSheet}</span>
        </button>
        <button type="button" className="wide" onClick={() => goTo({ page: 'paper', job: route.job })}>
          <span className="fold">{words.header.paper}</span>
        </button>
        <button type="button" onClick={openHands} aria-haspopup="dialog">
          <span className="fold">{words.header.hands}</span>
        </button>
        <button
          type="button"
          className="undo"
          disabled={now.undo === null}
          aria-label={now.undo === null ? words.header.nothingToUndo : words.header.undoes(now.undo)}
          onClick={() => void session.undo()}
        >
          {words.header.undo}
          {now.undo === null ? null : <small>{now.undo}</small>}
        </button>
      </div>
    </header>
  )
}

/** What the header of a phone has no room for stands over its rule. */
export function PhoneWays({ job }: { readonly job: string }) {
  const words = useWords()
  const ways = [
    [words.header.paper, () => goTo({ page: 'paper', job })],
    [words.pair.word, () => goTo({ page: 'compare', job })],
    [words.header.callSheet, () => goTo({ page: 'call' })],
  ] as const
  return (
    <nav className="phone-ways" aria-label={words.header.ways}>
      {ways.map(([word, go]) => (
        <button key={word} type="button" className="word" onClick={go}>
          {word}
        </button>
      ))}
    </nav>
  )
}

function Facts({ answer }: { readonly answer: JobAnswer }) {
  const words = useWords()
  const { neededBy, plugsCount, chosen } = answer.head
  const facts: readonly (readonly [string, string, string])[] = [
    ...(neededBy === null ? [] : [words.header.neededBy(words.day(neededBy))]),
    words.header.plugs(String(plugsCount)),
    ['', chosen, ''],
  ]
  return (
    <p className="facts">
      {facts.map(([before, strong, after], i) => (
        <span key={strong}>
          {i > 0 ? ' · ' : ''}
          {before}
          <b>{strong}</b>
          {after}
        </span>
      ))}
      {answer.invented ? ` · ${words.header.invented}` : ''}
    </p>
  )
}

function backWord(words: Words, route: JobRoute): string {
  const to = folded(route)
  if (to.page === 'today' || to.page === 'call') return words.header.today
  if (to.page === 'room') return words.questions[to.question]
  if (to.page === 'paper') return words.header.paper
  return to.page === 'six sides' && to.side !== undefined
    ? to.side === 'yard'
      ? words.yard.name
      : words.sides[to.side]
    : words.header.sixSides
}
