import { z } from "zod";
import { accountRoles } from "../../store/accounts/accounts";
import { InputError } from "../../units/issue";
import { changeAccount } from "../change-account";
import { declare, field, flag } from "../declare";

export const account = declare({
  name: "account",
  says: "make an account for a shop, or change one; a new one comes with a code, by which its person sets a password on the page",
  example: "fettle account ann --role bench",
  records: true,
  takes: z.object({
    name: field(z.string(), "<name>", "name of the account, as entries will show it"),
    role: field(z.enum(accountRoles).optional(), "--role <role>", "what it may do: bench works on jobs, keeper keeps the shop as well"),
    code: flag("--code", "make a new code to set a password; the old password ends"),
    shut: flag("--shut", "let nobody in by it any more; what it wrote stays"),
    reopen: flag("--reopen", "let it in again"),
  }),
  here: z.object({}),
  act: ({ name, ...to }, { desk }) => {
    if (to.shut && to.reopen)
      throw new InputError([{ path: "--reopen", code: "both", read: "--shut --reopen", expected: "one of the two" }]);
    return desk((d) => changeAccount(d.store.keeping().accounts, name, to, d.stamp.who));
  },
});
