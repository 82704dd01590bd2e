import type { JobRoute } from '../route.ts'
import { useWords } from '../words/index.ts'

/** The list of sheets, one of them as it will print. */
export default function Paper({ route: _route }: { readonly route: Extract<JobRoute, { page: 'paper' }> }) {
  const words = useWords()
  return (
    <section className="room">
      <h2>{words.paper.title}</h2>
      <p className="quiet">{words.paper.notBuilt}</p>
    </section>
  )
}
