import type { Mark } from './scene.ts'

/** One stroke or fill of a silhouette on a grid of 16. */
export interface MarkPath {
  readonly d: string
  readonly strokeWidth: number
  readonly filled: boolean
}

/** Five silhouettes from the shop, and the centre punch. Black on white, told apart by shape and by weight of ink. */
export const MARK_PATHS: Readonly<Record<Mark['mark'], readonly MarkPath[]>> = {
  holds: [
    { d: 'M15 8 11.5 14H4.5L1 8l3.5-6h7z', strokeWidth: 1.6, filled: false },
    { d: 'M5.4 8a2.6 2.6 0 1 0 5.2 0a2.6 2.6 0 1 0 -5.2 0z', strokeWidth: 0, filled: true },
  ],
  tight: [
    { d: 'M1 3h10v10H1z', strokeWidth: 1.5, filled: false },
    { d: 'M6 3h5v10H6zM13 0h2.6v16H13z', strokeWidth: 0, filled: true },
  ],
  fails: [{ d: 'M0 0h9.5L5 11H0zM11 5h5v11H6.5z', strokeWidth: 0, filled: true }],
  unknown: [{ d: 'M1.5 5.5v-4h4M10.5 1.5h4v4M14.5 10.5v4h-4M5.5 14.5h-4v-4', strokeWidth: 1.7, filled: false }],
  others: [
    { d: 'M.8 8 5 2.5h10.2v11H5z', strokeWidth: 1.4, filled: false },
    { d: 'M4 8a1.3 1.3 0 1 0 2.6 0a1.3 1.3 0 1 0 -2.6 0z', strokeWidth: 0, filled: true },
    { d: 'M8.5 6h4.5M8.5 10h4.5', strokeWidth: 1.2, filled: false },
  ],
  punch: [
    { d: 'M8 0v16M0 8h16', strokeWidth: 1, filled: false },
    { d: 'M4.6 8a3.4 3.4 0 1 0 6.8 0a3.4 3.4 0 1 0 -6.8 0z', strokeWidth: 0, filled: true },
  ],
}

/** One silhouette as a picture of its own. */
export function markSvg(which: Mark['mark']): string {
  const paths = MARK_PATHS[which].map((p) =>
    p.filled ? `<path d="${p.d}" fill="#000"/>` : `<path d="${p.d}" fill="none" stroke="#000" stroke-width="${p.strokeWidth}"/>`,
  )
  return `<svg xmlns="http://www.w3.org/2000/svg" width="16" height="16" viewBox="0 0 16 16">${paths.join('')}</svg>`
}
