import { saveAsFile } from '../files.ts'
import type { RemovedJob } from '../store/jobs.ts'
import { goTo } from '../where.ts'
import { useWords } from '../words/index.ts'
import type { DayNow, JobOfDay } from './use-day.ts'

interface KeptProps {
  readonly now: DayNow
  readonly removed: readonly RemovedJob[]
  readonly remove: (id: string) => void
  readonly restore: (id: string) => void
}

/** Jobs of this browser: open, save, remove with *Undo* beside it; then the examples. */
export function KeptJobs({ now, removed, remove, restore }: KeptProps) {
  const words = useWords()
  const kept = now.jobs.filter((job) => job.kept)
  return (
    <>
      <h2>{words.today.jobs}</h2>
      {kept.length === 0 && now.jobs.length > 0 ? <p className="quiet">{words.today.none}</p> : null}
      <ul className="lines">
        {kept.map((job) => (
          <li key={job.id}>
            <Open job={job} name={nameOf(job, now)} />
            <span className="ends">
              <button type="button" aria-label={words.today.save(job.file)} onClick={() => saveAsFile(job.file, job.text)}>
                <span className="fold">{words.today.saveWord}</span>
              </button>
              <button type="button" aria-label={words.today.remove(nameOf(job, now))} onClick={() => remove(job.id)}>
                <span className="fold">{words.today.removeWord}</span>
              </button>
            </span>
          </li>
        ))}
        {removed.map(({ id }) => (
          <li key={`gone ${id}`}>
            <span role="status">{words.today.removed(id)}</span>
            <span className="ends">
              <button type="button" aria-label={words.today.undoes(id)} onClick={() => restore(id)}>
                <span className="fold">{words.today.undo}</span>
              </button>
            </span>
          </li>
        ))}
      </ul>
      <h2>{words.today.examples}</h2>
      <ul className="lines">
        {now.jobs
          .filter((job) => !job.kept)
          .map((job) => (
            <li key={job.id}>
              <Open job={job} name={nameOf(job, now)} />
            </li>
          ))}
      </ul>
    </>
  )
}

const nameOf = (job: JobOfDay, now: DayNow): string => now.answers[job.id]?.title ?? job.id

function Open({ job, name }: { readonly job: JobOfDay; readonly name: string }) {
  return (
    <button type="button" onClick={() => goTo({ page: 'six sides', job: job.id })} data-job={job.id}>
      <span className="fold">{name}</span>
      <small>{job.file}</small>
    </button>
  )
}
