import { declare, nothing } from "../declare";

export const accounts = declare({
  name: "accounts",
  says: "list who may come in to a shop that is served on the network: accounts, what each may do, who was here last",
  example: "fettle accounts",
  records: false,
  takes: nothing,
  here: nothing,
  act: (_, { desk }) => desk((d) => d.store.keeping().accounts.list()),
});
