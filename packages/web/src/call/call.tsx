import { fold } from '../where.ts'
import { useWords } from '../words/index.ts'

/** The call sheet: one column of the phone's questions, a tag that fills beside it. */
export default function Call() {
  const words = useWords()
  return (
    <div className="job day">
      <header>
        <button type="button" className="back" onClick={() => fold()}>
          <span className="fold">{words.header.today}</span>
        </button>
        <h1>{words.call.title}</h1>
      </header>
      <main className="sheet">
        <p className="quiet">{words.call.notBuilt}</p>
      </main>
    </div>
  )
}
