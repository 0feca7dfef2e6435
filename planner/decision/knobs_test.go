package decision

const oneDay = 86400 // s
