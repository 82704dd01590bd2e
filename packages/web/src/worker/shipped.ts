import { Fault } from '@plugstead/engine/kernel'
import type { KeptDrawing } from '../store/drawn.ts'
import { jobAnswer } from './answer.ts'
import { worked } from './at-work.ts'
import { glassView } from './glass.ts'
import type { Given, SheetAsked } from './protocol.ts'
import { shopNow } from './shop.ts'

/** Room of a desk's sheet, and of a phone's. */
const ROOMS = [
  { side: null, widthPx: 1424, heightPx: 700 },
  { side: 'left', widthPx: 920, heightPx: 640 },
] as const

/** An example as it is first seen: its answer, and its first sheet at the desk and on a phone. */
export function shippedDrawing(given: Given): Omit<KeptDrawing, 'id'> {
  const shop = shopNow()
  if (!shop.ok) throw new Fault('web/shop', shop.problems)
  const result = worked(given, shop.value)
  if (!result.ok) throw new Fault('web/example', result.problems)
  const answer = jobAnswer(result.value)
  const [first] = answer.boxes
  if (first === undefined) return { answer, sheets: [] }
  const phase = first.phases[0]
  const sheets = ROOMS.flatMap((room) => {
    const asked: SheetAsked = {
      ...{ box: first.box, units: 'metric' as const, letterPx: 13, ...room },
      ...(phase === undefined ? {} : { phase }),
    }
    const view = glassView(result.value, asked)
    return view === null ? [] : [{ asked, view }]
  })
  return { answer, sheets }
}
