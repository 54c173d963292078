/** Where this page is opened, as whoever served it says: at the machine itself, on a device that joined at the chassis, or at the door. */
const said = document.documentElement.dataset.opened;
export const opened: "here" | "chassis" | "door" = said === "chassis" || said === "door" ? said : "here";
/** Whether everything may be done: a device at the chassis sees, types readings and reads files in. */
export const here = opened === "here";
/** Who has signed in, where a shop's server asks. */
export const signedIn = document.documentElement.dataset.who;
