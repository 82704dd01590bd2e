import './style/fonts.css'
import './style/tokens.css'
import './style/base.css'
import './style/frame.css'
import './style/rule.css'
import './style/tag.css'
import './style/rooms.css'
import './style/air.css'
import './style/sheet.css'
import './style/working.css'
import './style/day.css'
import './style/paper.css'
import './style/print.css'
import './style/call.css'
import { createRoot } from 'react-dom/client'
import { App } from './app.tsx'
import { BenchProvider, setUp } from './bench.ts'
import { dress } from './hands/preferences.ts'
import { keepApp } from './kept/kept.ts'

dress()
window.addEventListener('resize', dress)
const bench = await setUp()
createRoot(document.getElementById('page')!).render(
  <BenchProvider value={bench}>
    <App />
  </BenchProvider>,
)

// The sheet of a call asks the scribe first, the day sheet its own engine.
keepApp(import.meta.url, Promise.any([bench.engine, bench.dayEngine, bench.scribe].map(({ answered }) => answered)))
