import type { Issue } from '../outcome.ts'
import { addressFault } from './board-address.ts'
import { type Board, boardKinds } from './meeting.ts'

/** Most boards of one meeting. */
export const mostBoards = 60
/** Shortest and longest time that a board stands by itself. */
export const boardSeconds = { least: 5, most: 600 } as const
/** Longest title of a board or a meeting, characters. */
export const longestTitle = 120

/** What is wrong with a board; an issue's `column` is the property. */
export function boardFaults(board: Board, site: string): readonly (Issue & { column: keyof Board })[] {
  const faults: (Issue & { column: keyof Board })[] = []
  const title = board.title.trim()
  if (title === '' || title.length > longestTitle)
    faults.push({
      code: 'title-expected',
      column: 'title',
      value: title.slice(0, longestTitle),
      expected: `1 to ${longestTitle} characters`,
      message: `A board needs a title of 1 to ${longestTitle} characters, since it is read from the other end of the room.`,
    })
  if (!boardKinds.includes(board.kind))
    faults.push({
      code: 'board-kind-unknown',
      column: 'kind',
      value: board.kind,
      expected: boardKinds.join(', '),
      message: `"${board.kind}" is no kind of board. Choose one of ${boardKinds.join(', ')}.`,
    })
  const address = addressFault(board.address, site)
  if (address !== null)
    faults.push({
      code: 'board-address-refused',
      column: 'address',
      value: board.address.slice(0, 200),
      message: address,
    })
  const { least, most } = boardSeconds
  if (!Number.isInteger(board.seconds) || board.seconds < least || board.seconds > most)
    faults.push({
      code: 'board-seconds-expected',
      column: 'seconds',
      value: String(board.seconds),
      expected: `${least} to ${most}`,
      message: `A board stands for ${least} to ${most} whole seconds, not ${board.seconds}.`,
    })
  return faults
}

/** What is wrong with the boards of a meeting; an issue's `column` is `boards`, or `boards.0.title` and the like. */
export function boardListFaults(boards: readonly Board[], site: string): readonly Issue[] {
  if (boards.length < 1 || boards.length > mostBoards)
    return [
      {
        code: 'boards-expected',
        column: 'boards',
        value: String(boards.length),
        expected: `1 to ${mostBoards}`,
        message: `A meeting has 1 to ${mostBoards} boards, not ${boards.length}.`,
      },
    ]
  return boards.flatMap((board, index) =>
    boardFaults(board, site).map((fault) => ({
      ...fault,
      column: `boards.${index}.${fault.column}`,
      message: `Board ${index + 1}: ${fault.message}`,
    })),
  )
}
