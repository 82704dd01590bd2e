import type { SetBlock as Block, PanelWay } from '@plugstead/book'
import type { ReactNode } from 'react'
import { Mark } from '../marks/mark.tsx'
import { useWords } from '../words/index.ts'
import { Drawing } from './drawing.tsx'
import { mm, usePaper } from './on-paper.ts'
import { Head, On, Widths } from './on-sheet.tsx'
import { Family, Working } from './workings.tsx'

/** A block of a sheet, as the typesetter places it. */
export function SetBlock({ block }: { readonly block: Block }) {
  switch (block.k) {
    case 'para':
      return (
        <p className={block.small === true ? 'small' : ''}>
          <On of={block.text} />
        </p>
      )
    case 'head':
      return <Head title={block.text} note={block.note ?? ''} verdict={block.verdict ?? null} />
    case 'strip':
      return <p className="paper-strip">{block.text}</p>
    case 'table':
      return (
        <table className={block.small === true ? 'small' : ''}>
          <Widths of={block.widths} />
          <thead>
            <tr>
              {block.columns.map((c, i) =>
                // A column without a head has a plain cell there: an empty head says nothing to whoever listens.
                c.title === '' ? (
                  // biome-ignore lint/suspicious/noArrayIndexKey: columns never change places
                  <td key={i} />
                ) : (
                  // biome-ignore lint/suspicious/noArrayIndexKey: columns never change places
                  <th key={i} className={`to-${c.align}`}>
                    {c.title}
                  </th>
                ),
              )}
            </tr>
          </thead>
          <tbody>
            {block.rows.map((row, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: rows never change places
              <tr key={i} className={block.together ? 'whole' : ''}>
                {row.map((cell, j) => (
                  // biome-ignore lint/suspicious/noArrayIndexKey: cells never change places
                  <td key={j} className={`to-${block.columns[j]?.align}`}>
                    <On of={cell} />
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      )
    case 'facts':
      return (
        <dl>
          {block.rows.map(([name, value], i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: facts never change places
            <div key={i}>
              <dt>
                <On of={name} />
              </dt>
              <dd>
                <On of={value} />
              </dd>
            </div>
          ))}
        </dl>
      )
    case 'working':
      return <Working block={block} />
    case 'family':
      return <Family block={block} />
    case 'panel':
      return <Panel block={block} />
    case 'drawing':
      return (
        <div className="paper-drawing">
          <Drawing scene={block.scene} said={block.scene.said} />
        </div>
      )
    case 'lists':
      return (
        <div className="paper-lists">
          {block.lists.map((list) => (
            <div key={list.title}>
              <b>{list.title}</b>
              {list.items.map((item, i) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: items never change places
                <p key={i}>
                  <On of={item} />
                </p>
              ))}
            </div>
          ))}
        </div>
      )
    case 'contents':
      return <Contents />
    case 'gap':
      return <div style={{ height: mm(block.heightMm) }} />
    case 'labels':
      return (
        <div className="paper-labels">
          {block.labels.map((label, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: labels never change places
            <div key={i} className={label.caution ? 'strong' : ''}>
              {label.lines.map((line, j) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: lines never change places
                <span key={j}>{line}</span>
              ))}
            </div>
          ))}
        </div>
      )
  }
}

function Contents() {
  const words = useWords()
  const { page } = usePaper()
  return (
    <table>
      <Widths of={[32, 153]} />
      <thead>
        <tr>
          <th>{words.paper.sheet}</th>
          <th>{words.paper.answersWhat}</th>
        </tr>
      </thead>
      <tbody>
        {page.contents.map((line) => (
          <tr key={line.id} className="whole">
            <td>{line.part}</td>
            <td>{line.head}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

/** The panel's own order: odd left, even right, the legs as a spine between. */
function Panel({ block }: { readonly block: Extract<Block, { readonly k: 'panel' }> }) {
  const words = useWords()
  const heads = [...words.paper.panel, block.sizeTitle, '']
  const serves = 87.5 - 7 - block.plugMm - 8.5 - 11 - 10 - 5
  const own = [7, serves, block.plugMm, 8.5, 11, 10, 5]
  return (
    <table className="small panel">
      <Widths of={[...own, 10, ...own]} />
      <thead>
        <tr>
          {[...heads, words.paper.leg, ...heads].map((head, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: columns never change places
            <th key={i}>{head}</th>
          ))}
        </tr>
      </thead>
      <tbody>
        {block.spine.map(({ legs }, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: ways never change places
          <tr key={i} className="whole">
            {wayCells(block.left[i])}
            <td className={`spine at-${Math.max(0, block.legs.indexOf(legs[0] ?? ''))}`}>{legs.join('')}</td>
            {wayCells(block.right[i])}
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function wayCells(way: PanelWay | undefined): ReactNode {
  if (way === undefined) return <td colSpan={7} />
  return (
    <>
      <td>
        <b>{way.way}</b>
      </td>
      <td>
        <On of={way.serves} />
      </td>
      <td>{way.outlet}</td>
      <td className="to-right">{way.currentA}</td>
      <td className="to-right">{way.device}</td>
      <td className="to-right">{way.size}</td>
      <td>{way.verdict === null ? null : <Mark of={way.verdict} />}</td>
    </>
  )
}
