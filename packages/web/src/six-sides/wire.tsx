import { useLayoutEffect, useState } from 'react'

/** The wire from the chosen thing to its tag's eyelet: one curve, a twist at the thing. */
export function Wire() {
  const [path, setPath] = useState<string | null>(null)
  useLayoutEffect(() => {
    const draw = () => setPath(wirePath())
    draw()
    // The drawing comes a moment later than the place that was asked for.
    const watcher = new MutationObserver(draw)
    const sheet = document.querySelector('.sheet')
    if (sheet !== null)
      watcher.observe(sheet, { subtree: true, childList: true, attributes: true, attributeFilter: ['aria-pressed', 'style'] })
    window.addEventListener('resize', draw)
    window.addEventListener('scroll', draw, true)
    return () => {
      watcher.disconnect()
      window.removeEventListener('resize', draw)
      window.removeEventListener('scroll', draw, true)
    }
  })
  if (path === null) return null
  return (
    <svg className="wire" aria-hidden="true">
      <path d={path} />
    </svg>
  )
}

function wirePath(): string | null {
  const thing = document.querySelector('[data-choose][aria-pressed="true"]')?.getBoundingClientRect()
  const eyelet = document.querySelector('.eyelet circle')?.getBoundingClientRect()
  if (thing === undefined || eyelet === undefined || eyelet.width === 0) return null
  const [x0, y0] = [thing.right, thing.top + thing.height / 2]
  // A thing that is scrolled out of the sheet has no end for a wire.
  const sheet = document.querySelector('.sheet')?.getBoundingClientRect()
  if (sheet !== undefined && (y0 < sheet.top || y0 > sheet.bottom)) return null
  const [x1, y1] = [eyelet.left + eyelet.width / 2, eyelet.top + eyelet.height / 2]
  const sag = Math.min(80, Math.abs(x1 - x0) * 0.2)
  return `M${x0} ${y0}C${x0 + (x1 - x0) * 0.35} ${y0 + sag} ${x1 - (x1 - x0) * 0.25} ${y1 + sag} ${x1} ${y1}M${x0} ${y0}c-7 -5 -3 -14 4 -12s5 12 -2 13`
}
