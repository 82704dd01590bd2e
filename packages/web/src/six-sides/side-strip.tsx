import { useAnatomy } from '../hands/anatomy.ts'
import type { JobRoute } from '../route.ts'
import { fold, goTo } from '../where.ts'
import { useWords } from '../words/index.ts'
import { KEY_NET, type KeySide } from './key-net.ts'

type SixSides = Extract<JobRoute, { page: 'six sides' }>

/** Over an unfolded side: what it is, the way back to the net, and the small net that leads to any other. */
export function SideStrip({
  route,
  box,
  boxes,
}: {
  readonly route: SixSides
  readonly box: string
  readonly boxes: readonly string[]
}) {
  const words = useWords()
  const phone = useAnatomy() === 'phone'
  const side = route.side ?? (phone ? 'left' : null)
  return (
    <>
      {boxes.length < 2 ? null : (
        <div className="boxes">
          {boxes.map((one) => (
            <button
              key={one}
              type="button"
              aria-pressed={one === box}
              onClick={() => goTo({ page: 'six sides', job: route.job, box: one })}
            >
              <span className="fold">{one}</span>
            </button>
          ))}
        </div>
      )}
      {side === null ? null : (
        <div className="side-strip">
          <KeyNet side={side} choose={(to) => goTo({ ...route, box, side: to })} />
          <h2>{words.sheet.unfolded(words.sides[side])}</h2>
          {phone ? null : (
            <button type="button" onClick={() => fold()}>
              <span className="fold">{words.sheet.foldNet}</span>
            </button>
          )}
        </div>
      )}
    </>
  )
}

/** The net as map and chooser, 104 × 56. */
function KeyNet({ side, choose }: { readonly side: KeySide; readonly choose: (side: KeySide) => void }) {
  const words = useWords()
  return (
    <div className="key-net">
      {KEY_NET.map(({ side: one, x, y, w, h }) => (
        <button
          key={one}
          type="button"
          aria-label={words.sheet.unfold(words.sides[one])}
          aria-pressed={one === side}
          style={{ left: x, top: y, width: w, height: h }}
          onClick={() => choose(one)}
        />
      ))}
    </div>
  )
}
