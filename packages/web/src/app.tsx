import { lazy, Suspense } from 'react'
import { JobPage } from './frame/job-page.tsx'
import { useRoute } from './where.ts'
import { useWords } from './words/index.ts'

const Today = lazy(() => import('./today/today.tsx'))
const Call = lazy(() => import('./call/call.tsx'))

export function App() {
  const route = useRoute()
  const words = useWords()
  const reading = <p className="alone">{words.states.reading}</p>
  if (route.page === 'today')
    return (
      <Suspense fallback={reading}>
        <Today />
      </Suspense>
    )
  if (route.page === 'call')
    return (
      <Suspense fallback={reading}>
        <Call />
      </Suspense>
    )
  return <JobPage key={route.job} route={route} />
}
