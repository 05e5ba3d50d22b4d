namespace ParticleLims.Analysis;

/// <summary>
/// Does the work of each block from 0 to one less than the count, in any order and at the same time if it likes, and comes back when all is done. The engine starts no threads; who calls it
/// may give it some, and the answer is the same to the last bit.
/// </summary>
/// <param name="count">How many blocks.</param>
/// <param name="work">The work of one.</param>
public delegate void ForEachBlock(int count, Action<int> work);
