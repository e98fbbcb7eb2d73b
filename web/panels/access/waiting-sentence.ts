/** Before signing out: what stays on the device, and what becomes of it. */
export const waitingSentence = (entries: number): string =>
  `${entries === 1 ? 'One entry of field work has' : `${entries} entries of field work have`} not reached the server. ${
    entries === 1 ? 'It stays' : 'They stay'
  } on this device, readable without a password, and ${
    entries === 1 ? 'is' : 'are'
  } sent once someone with a role at the site signs in here.`
