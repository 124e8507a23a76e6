/** room → the rooms and packages that it may import. */
export const rooms: Readonly<Record<string, { rooms: readonly string[]; packages: readonly string[] }>>;
export const pureRooms: readonly string[];
/** Text of .oxlintrc.json. */
export const text: () => string;
