import { usePreferences } from '../hands/preferences.ts'
import { sentence } from '../hands/units.ts'
import { Mark } from '../marks/mark.tsx'
import { useWords } from '../words/index.ts'
import { CountedWork } from './counted-work.tsx'
import { useThirtyYears } from './use-thirty-years.ts'

/** In how many of thirty made years the design holds: runs by itself beside the page, counted, and can be stopped. */
export function ThirtyYears({ box }: { readonly box: string }) {
  const words = useWords()
  const { units } = usePreferences()
  const { now, run, stop } = useThirtyYears(box)
  const said = words.air.thirty
  return (
    <section aria-labelledby="air-thirty">
      <h3 id="air-thirty">{said.title}</h3>
      <p className="small">{said.note}</p>
      {now.is === 'running' ? (
        <CountedWork
          {...{ doneCount: now.doneCount, ofCount: now.ofCount, stopping: now.stopping, stop }}
          {...{ stopWord: words.air.remedies.stop, note: said.workNote }}
          said={now.stopping ? words.air.remedies.stopping : words.air.remedies.work(now.doneCount, now.ofCount)}
        />
      ) : null}
      {now.is === 'done' ? (
        <p role="status">
          <Mark of={now.view.verdict} /> <b>{words.verdicts[now.view.verdict]}</b>. {sentence(now.view.said, units)}
        </p>
      ) : null}
      {now.is === 'stopped' ? (
        <>
          <p role="status">{said.stopped(now.doneCount, now.ofCount)}</p>
          <button type="button" className="plate" onClick={run}>
            {said.run}
          </button>
        </>
      ) : null}
      {now.is === 'lacks' ? (
        <p role="status">
          {words.air.remedies.lacks} {now.lacks.map((one) => sentence(one, units)).join(' ')}
        </p>
      ) : null}
    </section>
  )
}
