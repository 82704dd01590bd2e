import type { Problem } from '@plugstead/engine/kernel'
import { useEffect, useState } from 'react'
import { useBench } from '../bench.ts'
import { exampleNames } from '../examples.ts'
import { Problems } from '../frame/strips.tsx'
import type { KeptJob } from '../store/jobs.ts'
import { goTo } from '../where.ts'
import { useWords } from '../words/index.ts'
import { takeIn } from './take-in.ts'

/** A day sheet: one ruled list. So far it lists the jobs that are kept, the examples, and takes documents in. */
export default function Today() {
  const bench = useBench()
  const words = useWords()
  const [jobs, setJobs] = useState<readonly KeptJob[]>([])
  const [problems, setProblems] = useState<readonly Problem[]>([])
  useEffect(() => {
    void bench.jobs.all().then(setJobs)
  }, [bench])
  const take = async (file: File | undefined) => {
    if (file === undefined) return
    const taken = await takeIn(bench, file.name, new Uint8Array(await file.arrayBuffer()))
    if (taken.ok) goTo({ page: 'six sides', job: taken.value })
    else setProblems(taken.problems)
  }
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping a file is beside the field that takes one
    <div
      className="job day"
      onDragOver={(event) => event.preventDefault()}
      onDrop={(event) => {
        event.preventDefault()
        void take(event.dataTransfer.files[0])
      }}
    >
      <header>
        <h1>{words.today.title}</h1>
        <div className="acts">
          <button type="button" onClick={() => goTo({ page: 'call' })}>
            <span className="fold">{words.header.callSheet}</span>
          </button>
        </div>
      </header>
      <main className="sheet day-sheet">
        {problems.length === 0 ? null : <Problems problems={problems} />}
        <h2>{words.today.jobs}</h2>
        {jobs.length === 0 ? <p className="quiet">{words.today.none}</p> : null}
        <Jobs ids={jobs.map(({ id, file }) => [id, file])} />
        <label className="take">
          <span className="fold">{words.today.open}</span>
          <input type="file" accept=".yaml,.yml,.json" onChange={(event) => void take(event.target.files?.[0])} />
        </label>
        <p className="quiet">{words.today.drop}</p>
        <h2>{words.today.examples}</h2>
        <Jobs ids={exampleNames.filter((name) => !jobs.some((job) => job.id === name)).map((name) => [name, name])} />
      </main>
    </div>
  )
}

function Jobs({ ids }: { readonly ids: readonly (readonly [id: string, name: string])[] }) {
  return (
    <ul className="lines">
      {ids.map(([id, name]) => (
        <li key={id}>
          <button type="button" onClick={() => goTo({ page: 'six sides', job: id })}>
            <span className="fold">{name}</span>
          </button>
        </li>
      ))}
    </ul>
  )
}
