// Command empty does nothing: what starting any Go program costs.
package main

func main() {}
