/** One key and what it does; the sheet of keys shows exactly these. */
export interface Shortcut {
  readonly keys: string
  readonly does: string
}

export const shortcuts: readonly { readonly where: string; readonly list: readonly Shortcut[] }[] = [
  {
    where: 'Anywhere',
    list: [
      { keys: '?', does: 'Show this sheet' },
      { keys: 'm', does: 'Go to the plan' },
      { keys: 'r', does: 'Go to the register' },
      { keys: 'a', does: 'Go to alerts and responses' },
      { keys: 'k', does: 'Play or pause the clock' },
      { keys: 'j  l', does: 'Clock one day back, one day forward' },
      { keys: 'J  L', does: 'Clock one hour back, one hour forward' },
      { keys: 'p', does: 'Clock to the present' },
      { keys: '1 … 9', does: 'Open a tab of the side sheet' },
    ],
  },
  {
    where: 'On the plan',
    list: [
      { keys: '← ↑ → ↓', does: 'Select the next instrument in that direction' },
      { keys: 'Shift + arrows', does: 'Move the plan' },
      { keys: '+  −', does: 'Closer, further away' },
      { keys: '0', does: 'Whole site' },
      {
        keys: 'Enter',
        does: 'Open the record of what is selected; with a drawing tool, put a corner there; while picking series to compare, take it in or out',
      },
      { keys: 'f', does: 'Finish the section line' },
      { keys: 'Backspace', does: 'Take back the last corner' },
      { keys: 'Esc', does: 'Select nothing; give up the section line' },
    ],
  },
  {
    where: 'In the register',
    list: [
      { keys: '↑ ↓', does: 'Move through the rows' },
      { keys: 'Page Up  Page Down  Home  End', does: 'Move by pages, to first and last row' },
      { keys: 'Enter', does: 'Select the row' },
    ],
  },
  {
    where: 'By thumb',
    list: [
      { keys: 'Tap', does: 'Select the nearest instrument' },
      { keys: 'Two fingers', does: 'Closer, further away, turn' },
      { keys: 'Sheet buttons', does: 'Lower, halve or raise the side sheet' },
    ],
  },
]
