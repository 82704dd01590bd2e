import { useLayoutEffect, useRef, useState } from 'react'
import { Mark } from '../marks/mark.tsx'
import { Hatches } from '../six-sides/hatches.tsx'
import { useWords } from '../words/index.ts'
import type { PageAnswer } from '../worker/protocol.ts'
import { SetBlock } from './blocks.tsx'
import { Drawing } from './drawing.tsx'
import { mm, OnPaper } from './on-paper.ts'

const BLOCK_MM = 185
const BODY_MM = 188
const TOP_MM = 29
const FOOT_UP_MM = 37.2
/** Between two sheets that lie side by side. */
const GAP_MM = 5

/** One sheet as it will print: what does not fit on one leaf of paper goes over to the next, beside it. */
export function Page({ page, check }: { readonly page: PageAnswer; readonly check: boolean }) {
  const words = useWords()
  const flow = useRef<HTMLDivElement>(null)
  const [count, setCount] = useState(1)
  const { widthMm, heightMm } = page
  const sideMm = (widthMm - BLOCK_MM) / 2
  const stepMm = widthMm + GAP_MM
  // biome-ignore lint/correctness/useExhaustiveDependencies: measured again when something else is set
  useLayoutEffect(() => {
    let left = false
    const measure = () => {
      const one = flow.current
      if (one === null || left) return
      const blockPx = one.clientWidth
      setCount(1 + Math.max(0, Math.round((one.scrollWidth - blockPx) / ((blockPx * stepMm) / BLOCK_MM))))
    }
    measure()
    void document.fonts.ready.then(measure)
    return () => {
      left = true
    }
  }, [page, check, stepMm])
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls is reached by keys
    <section className="paper-page" aria-label={words.paper.asItPrints(page.line.head)} tabIndex={0}>
      <svg className="patterns" aria-hidden="true">
        <Hatches />
      </svg>
      <OnPaper value={{ check, page }}>
        <div className="run" style={{ width: mm(count * stepMm - GAP_MM), height: mm(heightMm) }}>
          {Array.from({ length: count }, (_, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: leaves of paper never change places
            <Leaf key={i} page={page} n={i + 1} of={count} leftMm={i * stepMm} sideMm={sideMm} />
          ))}
          <div
            className="flow"
            ref={flow}
            style={{
              ...{ left: mm(sideMm), top: mm(TOP_MM), width: mm(BLOCK_MM), height: mm(BODY_MM) },
              ...{ columnWidth: mm(BLOCK_MM), columnGap: mm(stepMm - BLOCK_MM) },
            }}
          >
            {page.blocks.map((block, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: blocks of a sheet never change places
              <SetBlock key={i} block={block} />
            ))}
          </div>
        </div>
      </OnPaper>
    </section>
  )
}

/** What is the same on every leaf: frame, head, key of marks, caution strip, tag. */
function Leaf({
  page,
  n,
  of,
  leftMm,
  sideMm,
}: {
  readonly page: PageAnswer
  readonly n: number
  readonly of: number
  readonly leftMm: number
  readonly sideMm: number
}) {
  const words = useWords()
  const { line, heightMm, widthMm } = page
  const footMm = heightMm - FOOT_UP_MM
  const at = (left: number, top: number, width?: number) => ({
    left: mm(sideMm + left),
    top: mm(top),
    ...(width === undefined ? {} : { width: mm(width) }),
  })
  const [part = '', ...where] = words.paper.page(line.part, n, of)
  return (
    <div className="leaf-of-paper" aria-hidden={n > 1} style={{ left: mm(leftMm), width: mm(widthMm), height: mm(heightMm) }}>
      <Drawing scene={page.frame} />
      <h2 className="paper-head" style={at(0, 11.4, BLOCK_MM)}>
        {n === 1 ? line.head : `${line.head}, ${words.paper.continued}`}
      </h2>
      <div className="paper-sub" style={at(0, 19.4, BLOCK_MM)}>
        {line.sub}
      </div>
      {page.key ? <Key style={at(0, footMm - 25.2, BLOCK_MM)} /> : null}
      <div className="paper-sign" style={at(0, footMm - 19)}>
        {words.paper.checkedBy}
      </div>
      <div className="paper-sign" style={at(92.5, footMm - 19)}>
        {words.paper.license}
      </div>
      <div className="paper-sign" style={at(141.25, footMm - 19)}>
        {words.paper.date}
      </div>
      <div className="paper-caution" style={{ ...at(12, footMm - 10.6, BLOCK_MM - 24), height: mm(8.4) }}>
        {page.caution}
      </div>
      <Cell style={at(12.5, footMm + 1.2, 66)} head={page.foot.words} sizePt={page.foot.sizePt} lines={page.tag} />
      <Cell style={at(84, footMm + 1.2, 34)} head={part} sizePt={12} lines={[...where, page.scale, page.rules]} />
      <Cell style={at(123, footMm + 1.2, 33)} head={page.issue[0] ?? ''} sizePt={12} lines={page.issue.slice(1)} />
      {page.keySides.map((scene) => (
        <div key={scene.said} className="key-side" style={at(page.keyAt.leftMm, footMm + page.keyAt.topMm)}>
          <Drawing scene={scene} />
        </div>
      ))}
    </div>
  )
}

function Cell({
  style,
  head,
  sizePt,
  lines,
}: {
  readonly style: object
  readonly head: string
  readonly sizePt: number
  readonly lines: readonly string[]
}) {
  return (
    <div className="paper-cell" style={style}>
      <b style={{ fontSize: mm(sizePt * 0.3528) }}>{head}</b>
      {lines.map((words) => (
        <span key={words}>{words}</span>
      ))}
    </div>
  )
}

function Key({ style }: { readonly style: object }) {
  const words = useWords()
  return (
    <div className="paper-key" style={style}>
      {(['holds', 'tight', 'fails', 'unknown'] as const).map((v) => (
        <span key={v}>
          <Mark of={v} /> {words.verdicts[v]}
        </span>
      ))}
      <span>
        <Mark of="others" /> {words.paper.othersDecide}
      </span>
      <span className="assumed">{words.firm.assumed}</span>
      <span className="told">{words.firm.told}</span>
      <span className="bounded">{words.firm.bounded}</span>
      <span>
        <Mark of="punch" /> {words.firm.pinned}
      </span>
      <span>{words.paper.key}</span>
    </div>
  )
}
