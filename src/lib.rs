//! Stillwheel: finding out why a parked aircraft did not stay put.
pub mod authoring;
pub mod base;
pub mod diagnosis;
pub mod plant;
pub mod source;
pub mod tree;
