let times = 0;
/** A module of ours, and all of ours that it takes in, evaluated anew: as one that starts where the world around it is another. `T` is the type of the module, `at` its file. */
export const afresh = async <T>(at: URL): Promise<T> => {
  times += 1;
  return import(`${at.href}?afresh=${times}`) as Promise<T>;
};
