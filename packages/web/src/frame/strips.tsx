import type { Problem } from '@plugstead/engine/kernel'
import { useJob } from '../bench.ts'
import { saveAsFile } from '../files.ts'
import { OlderStrip } from '../kept/kept-words.tsx'
import { useWords } from '../words/index.ts'

/** What stands across the page until something is done about it. Nothing here comes and goes by itself. */
export function Strips() {
  const { session, now } = useJob()
  const words = useWords()
  return (
    <>
      <OlderStrip />
      {now.kept ? null : (
        <p className="strip" role="alert">
          {words.states.notKept}
          <button type="button" onClick={() => saveAsFile(now.file, now.text)}>
            {words.header.save}
          </button>
        </p>
      )}
      {now.both === null ? null : (
        <p className="strip" role="alert">
          {words.states.both(now.both.theirs.words)}
          <button type="button" onClick={() => void session.choose(true)}>
            {words.states.mine}: {now.both.words}
          </button>
          <button type="button" onClick={() => void session.choose(false)}>
            {words.states.theirs}: {now.both.theirs.words}
          </button>
        </p>
      )}
      {now.fault === null ? null : (
        <p className="strip" role="alert">
          {words.states.fault(now.fault.code)}
        </p>
      )}
      {now.problems.length === 0 ? null : <Problems problems={now.problems} />}
    </>
  )
}

/** What cannot be read, in the words of the terminal: where, found, wanted, mend. */
export function Problems({ problems }: { readonly problems: readonly Problem[] }) {
  const words = useWords()
  return (
    <section className="problems" role="alert">
      <h2>{words.states.problems(problems.length)}</h2>
      {problems.map((problem) => (
        <dl key={`${problem.code} ${problem.line} ${problem.column} ${problem.found}`}>
          <dt>
            {[problem.file, problem.line === undefined ? undefined : words.states.line(problem.line), problem.path]
              .filter((part) => part !== undefined)
              .join(', ')}
          </dt>
          <dd>
            <b>{words.states.found}</b> {problem.found}
          </dd>
          <dd>
            <b>{words.states.wanted}</b> {problem.wanted}
          </dd>
          <dd>
            <b>{words.states.mend}</b> {problem.mend}
          </dd>
        </dl>
      ))}
    </section>
  )
}

/** One polite sentence for whoever does not see the rule change. */
export function Spoken() {
  const { now } = useJob()
  const words = useWords()
  const moved = now.moved.map(({ id, is }) => words.rule.moved(words.questions[id], words.verdicts[is])).join(', ')
  const said = now.elsewhere === null ? moved : `${words.states.elsewhere(now.elsewhere)} ${moved}`
  return (
    <p className="spoken" role="status">
      {said}
    </p>
  )
}
