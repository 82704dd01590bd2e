import type { Side } from '@plugstead/engine/job'
import { useAnatomy } from '../hands/anatomy.ts'
import type { JobRoute } from '../route.ts'
import { fold, goTo } from '../where.ts'
import { useWords } from '../words/index.ts'
import type { BoxAnswer } from '../worker/protocol.ts'
import { FoldTheBox } from './fold-the-box.tsx'
import { KEY_NET, type KeySide, NEIGHBOURS } from './key-net.ts'

type SixSides = Extract<JobRoute, { page: 'six sides' }>

/** Over the drawing: which box and which phase; of an unfolded side what it is, the way back, the small net that leads to any other. */
export function SideStrip({
  route,
  answer,
  boxes,
}: {
  readonly route: SixSides
  readonly answer: BoxAnswer
  readonly boxes: readonly string[]
}) {
  const words = useWords()
  const phone = useAnatomy() === 'phone'
  const { box, phases } = answer
  const side = route.side ?? (phone ? 'left' : null)
  const phase = route.phase ?? phases[0]
  return (
    <>
      {boxes.length < 2 && phases.length < 2 ? null : (
        <div className="boxes">
          {boxes.length < 2
            ? null
            : boxes.map((one) => (
                <button
                  key={one}
                  type="button"
                  aria-pressed={one === box}
                  onClick={() =>
                    goTo({
                      ...{ page: 'six sides', job: route.job, box: one },
                      ...(route.side === undefined ? {} : { side: route.side }),
                      ...(route.phase === undefined ? {} : { phase: route.phase }),
                    })
                  }
                >
                  <span className="fold">{one}</span>
                </button>
              ))}
          {phases.length < 2
            ? null
            : phases.map((one) => (
                <button key={one} type="button" aria-pressed={one === phase} onClick={() => goTo({ ...route, phase: one })}>
                  <span className="fold">{words.yard.phase(one)}</span>
                </button>
              ))}
        </div>
      )}
      {side === null ? null : (
        <div className="side-strip">
          <KeyNet side={side === 'yard' ? null : side} choose={(to) => goTo({ ...route, box, side: to })} />
          <h2>{side === 'yard' ? words.yard.title(box) : words.sheet.unfolded(words.sides[side])}</h2>
          {side === 'yard' ? null : <Neighbours side={side} step={(to) => goTo({ ...route, box, side: to })} />}
          {phone ? <FoldTheBox route={route} /> : null}
          {phone || side === 'yard' ? null : (
            <button type="button" onClick={() => fold()}>
              <span className="fold">{words.sheet.foldNet}</span>
            </button>
          )}
        </div>
      )}
    </>
  )
}

/** Over a fold to the side on either hand. */
function Neighbours({ side, step }: { readonly side: Side; readonly step: (to: Side) => void }) {
  const words = useWords()
  return (
    <span className="neighbours">
      {NEIGHBOURS[side].map((to, i) => (
        <button key={to} type="button" aria-label={words.sheet.next(words.sides[to])} onClick={() => step(to)}>
          <span className="fold">{i === 0 ? words.sheet.overLeft(words.sides[to]) : words.sheet.overRight(words.sides[to])}</span>
        </button>
      ))}
    </span>
  )
}

/** The net as map and chooser, 104 × 56. */
function KeyNet({ side, choose }: { readonly side: KeySide | null; readonly choose: (side: KeySide) => void }) {
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
