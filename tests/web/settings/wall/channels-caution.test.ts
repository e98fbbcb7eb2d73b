import { expect, it } from 'vitest'
import { channelsCaution } from '../../../../web/settings/wall/channels-caution.ts'

const watched = { watched: 90, silent: 14, unread: 2, critical: 3 }

it('counts the channels without current data and those of them that a level watches', () => {
  expect(channelsCaution({ late: 20, series: 724 }, watched)).toBe(
    'No alert does not mean no movement: 20 of 724 channels have no current data; at the cut-off 14 of the 90 watched, 2 of them read by nothing.',
  )
  expect(channelsCaution({ late: 1, series: 2 }, { ...watched, watched: 0, silent: 0 })).toContain(
    '1 of 2 channels has no current data; no level watches any',
  )
})

it('claims nothing where nothing was judged or evaluated', () => {
  expect(channelsCaution({ late: 1, series: 2 }, null)).toContain('is not known')
  expect(channelsCaution(null, watched)).toContain('not known yet')
  expect(channelsCaution({ late: 0, series: 0 }, watched)).toContain('no channel is in use')
})
