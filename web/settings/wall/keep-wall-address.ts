import { onCleanup } from 'solid-js'
import { boardPlace, goToPlace, meeting } from '../../state/meeting.ts'
import { readWallAddress, writeWallAddress } from '../../state/on-wall.ts'
import { letBoardsFollow } from '../../state/presenting.ts'
import { sync } from '../../ui/sync.ts'

/** Keeps board and address alike, both ways: the browser's Back leads to the board before. */
export function keepWallAddress(): void {
  const opened = readWallAddress(location.search)
  let written = ''
  sync(
    () => ({ shown: meeting(), ...boardPlace() }),
    ({ shown, board, page }) => {
      if (!shown) return
      const query = writeWallAddress({ site: shown.site, meeting: shown.id, board, page })
      if (query === written) return
      // What the page was opened with stays one step.
      history[written === '' ? 'replaceState' : 'pushState'](null, '', `?${query}`)
      written = query
    },
  )
  const goBack = () => {
    const place = readWallAddress(location.search)
    if (place === null || place.meeting !== opened?.meeting) {
      location.reload()
      return
    }
    written = location.search.slice(1)
    letBoardsFollow(false)
    goToPlace(place)
  }
  addEventListener('popstate', goBack)
  onCleanup(() => removeEventListener('popstate', goBack))
}
