import { Inline } from '../marks/inline.tsx'
import { Mark } from '../marks/mark.tsx'
import { useWords } from '../words/index.ts'
import type { RoomBlock } from '../worker/protocol.ts'
import { Drawing } from './drawing.tsx'
import { Panel } from './panel.tsx'
import type { Ways } from './room.tsx'
import { Table } from './table.tsx'
import { useInline } from './us-inline.ts'

/** What a sheet of a room holds, one below another. `name`: what a table without a head of its own is called. */
export function Blocks({
  blocks,
  ways,
  name,
}: {
  readonly blocks: readonly RoomBlock[]
  readonly ways: Ways
  readonly name: string
}) {
  let head = name
  return blocks.map((block, i) => {
    if (block.k === 'head') head = block.text
    // biome-ignore lint/suspicious/noArrayIndexKey: blocks of a sheet never change places
    return <One key={i} block={block} ways={ways} name={head} />
  })
}

function One({ block, ways, name }: { readonly block: RoomBlock; readonly ways: Ways; readonly name: string }) {
  const words = useWords()
  const own = useInline()
  switch (block.k) {
    case 'head':
      return (
        <h4>
          {own(block.text) as string}{' '}
          {block.note === undefined ? null : (
            <span>
              <Inline of={own(block.note)} />
            </span>
          )}
          {block.verdict === undefined || block.verdict === 'not built' ? null : (
            <>
              {' '}
              <Mark of={block.verdict} /> {words.verdicts[block.verdict]}
            </>
          )}
        </h4>
      )
    case 'para':
      return (
        <p className={block.small === true ? 'small' : undefined}>
          <Inline of={own(block.text)} unfold={ways.unfold} />
        </p>
      )
    case 'strip':
      return (
        <p className="caution-strip">
          <b>{words.tag.caution}</b> {own(block.text) as string}
        </p>
      )
    case 'facts':
      return (
        <dl className="room-facts">
          {block.rows.map(([term, said], i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: facts of a sheet never change places
            <div key={i}>
              <dt>
                <Inline of={own(term)} />
              </dt>
              <dd>
                <Inline of={own(said)} unfold={ways.unfold} />
              </dd>
            </div>
          ))}
        </dl>
      )
    case 'lists':
      return block.lists.map((list) => (
        <section key={list.title}>
          <h4>{list.title}</h4>
          <ul className="room-list">
            {list.items.map((item, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: items of a list never change places
              <li key={i}>
                <Inline of={own(item)} />
              </li>
            ))}
          </ul>
        </section>
      ))
    case 'labels':
      return (
        <ul className="room-labels">
          {block.labels.map((label, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: labels of a sheet never change places
            <li key={i} className={label.caution ? 'caution' : undefined}>
              {label.lines.map((line, k) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: lines of a label never change places
                <span key={k}>{line}</span>
              ))}
            </li>
          ))}
        </ul>
      )
    case 'table':
      return <Table block={block} ways={ways} name={name} />
    case 'panel':
      return <Panel block={block} ways={ways} name={name} />
    case 'drawing':
      return <Drawing view={block.view} ways={ways} />
  }
}
